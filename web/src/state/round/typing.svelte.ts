import { arrowOf, asTyped, otherSide, withKey, withoutLast, withSign, type Side } from '../../lib/decimal';
import { remember, remembered } from '../remembered';
import type { Flag } from '../../api/acts';

/** What the hand was doing; a reload, a lock or a dead battery comes back to it. */
interface Left {
  readonly text: string;
  readonly side: Side | null;
  readonly at: string | null;
  readonly flag: Flag | null;
  readonly note: string;
}

function leftAt(key: string): Partial<Left> {
  try {
    const value: unknown = JSON.parse(remembered(key) ?? '{}');
    return typeof value === 'object' && value !== null ? value : {};
  } catch {
    return {};
  }
}

/** The number while it is typed, with the needle's side; every key is written down. */
export class Typing {
  text = $state('');
  side = $state<Side>('anticlockwise');
  flag = $state<Flag | null>(null);
  note = $state('');
  /** A place that was chosen by hand ("top/thrust"); null: the next one. */
  at = $state<string | null>(null);
  /** Whether the side was ever chosen here. */
  readonly known: boolean;
  readonly #key: string;

  constructor(job: string, part: string) {
    this.#key = `typed.${job}.${part}`;
    const left = leftAt(this.#key);
    this.text = left.text ?? '';
    this.side = left.side ?? 'anticlockwise';
    this.flag = left.flag ?? null;
    this.note = left.note ?? '';
    this.at = left.at ?? null;
    this.known = left.side !== undefined;
  }

  keep(): void {
    const left: Left = { text: this.text, side: this.side, at: this.at, flag: this.flag, note: this.note };
    remember(this.#key, JSON.stringify(left));
  }
  press(key: string): void {
    this.text = withKey(this.text, key);
    this.keep();
  }
  put(text: string): void {
    this.text = text;
    this.keep();
  }
  back(): void {
    this.text = withoutLast(this.text);
    this.keep();
  }
  turn(): void {
    this.side = otherSide(this.side);
    this.keep();
  }
  sign(): void {
    this.text = withSign(this.text);
    this.keep();
  }
  aim(place: string | null): void {
    this.at = place;
    this.keep();
  }
  mark(flag: Flag | null, note: string): void {
    this.flag = flag;
    this.note = note;
    this.keep();
  }
  /** As it goes to the server; empties the field. */
  take(sided: boolean): { text: string; flag: Flag | null; note: string } {
    const out = { text: this.whole(sided), flag: this.flag, note: this.note };
    this.text = '';
    this.flag = null;
    this.note = '';
    this.keep();
    return out;
  }
  whole(sided: boolean): string {
    return asTyped(this.text, sided ? this.side : null);
  }
  get arrow(): string {
    return arrowOf(this.side);
  }
}
