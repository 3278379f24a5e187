import type { Act, ReadingBody } from '../../api/acts';
import type { RoundReply } from '../../generated/wire';
import type { OwnReading } from '../../lib/round';
import { onAnswered, outbox, type Answered } from '../acts.svelte';
import { remember, remembered } from '../remembered';

interface Settled {
  readonly reading: OwnReading;
  readonly position: number;
}

function ownOf(
  act: ReadingBody & { id: string; who: string },
  stage: OwnReading['stage'],
  said: string | null,
): OwnReading {
  return {
    id: act.id,
    place: `${act.station}/${act.direction}`,
    text: act.text,
    said,
    flag: act.flag ?? null,
    note: act.note ?? '',
    who: act.read_by ?? act.who,
    supersedes: act.supersedes ?? null,
    order: act.order,
    stage,
  };
}

/** This device's readings of one part that the server's page does not show yet: being written, durable here, or just taken in. */
export class OwnReadings {
  #writing = $state.raw<readonly OwnReading[]>([]);
  #settled = $state.raw<readonly Settled[]>([]);
  /** Taken back before the server knew of them. */
  #withdrawn = $state.raw<readonly string[]>([]);

  constructor(
    private readonly job: string,
    private readonly part: string,
  ) {
    this.#settled = this.#remembered();
  }

  /** Taken back here; the server's page may still show them. */
  get takenBack(): ReadonlySet<string> {
    const waiting = outbox.unsent.filter((each) => each.job === this.job).map((each) => each.act);
    return new Set([...this.#withdrawn, ...waiting.flatMap((act) => (act.act === 'withdraw' ? [act.event] : []))]);
  }

  get all(): OwnReading[] {
    const waiting = outbox.unsent.filter((each) => each.job === this.job).map((each) => each.act);
    const gone = this.takenBack;
    const here = waiting.filter((act) => act.act === 'reading').filter((act) => act.part === this.part);
    const known = new Set(here.map((act) => act.id));
    const settled = this.#settled.map((each) => each.reading);
    const writing = this.#writing.filter(
      (each) => !known.has(each.id) && !settled.some((other) => other.id === each.id),
    );
    return [...settled, ...here.map((act) => ownOf(act, 'here', null)), ...writing].filter(
      (each) => !gone.has(each.id),
    );
  }

  begin(id: string, who: string, body: ReadingBody): void {
    this.#writing = [...this.#writing, ownOf({ ...body, id, who }, 'writing', null)];
    remember(this.#orderKey(body.setting, body.round), String(body.order));
  }

  withdraw(id: string): void {
    this.#withdrawn = [...this.#withdrawn, id];
  }

  /** Written: from here on the outbox holds it. */
  written(id: string): void {
    this.#writing = this.#writing.filter((each) => each.id !== id);
  }

  /** Follows the answers of the server as long as the page lives. */
  follow(heard: (act: Act, reply: Parameters<Answered>[2]) => void): () => void {
    return onAnswered((job, act, reply, position) => {
      if (job !== this.job) return;
      if (act.act === 'reading' && act.part === this.part && reply.kept) {
        this.#settle([...this.#settled, { reading: ownOf(act, 'server', reply.said), position }]);
      }
      heard(act, reply);
    });
  }

  /** The server's page shows them now. */
  shown(page: RoundReply): void {
    this.#settle(this.#settled.filter((each) => each.position > page.position));
  }

  /** Remembered, so that a reload with the server away does not show a place as unread that the server has. */
  #settle(settled: readonly Settled[]): void {
    this.#settled = settled;
    remember(`settled.${this.job}.${this.part}`, settled.length === 0 ? null : JSON.stringify(settled));
  }
  #remembered(): readonly Settled[] {
    try {
      return JSON.parse(remembered(`settled.${this.job}.${this.part}`) ?? '[]') as Settled[];
    } catch {
      return [];
    }
  }

  /** One more than any order of this round, as far as this device knows. */
  nextOrder(page: RoundReply, setting: string): number {
    const own = this.all.map((each) => each.order);
    const here = Number.parseInt(remembered(this.#orderKey(setting, page.round)) ?? '0', 10);
    return Math.max(page.last_order, here, ...own) + 1;
  }

  #orderKey(setting: string, round: string): string {
    return `order.${this.job}.${setting}.${round}`;
  }
}
