import { understood, type ReadingBody } from '../../api/acts';
import type { UnderstoodReply } from '../../generated/wire';

/** Time for the next digit to come before the server is asked. */
const breath = 120;

/** What the typed text means, as the server says; the last question's answer wins. */
export class Meaning {
  /** Of `text`; null while unknown. */
  reply = $state<UnderstoodReply | null>(null);
  text = $state('');
  away = $state(false);
  #asked = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;

  /** Null: nothing is typed. `second`: who reads a second time, or null. */
  ask(job: string, body: ReadingBody | null, second: string | null): void {
    clearTimeout(this.#timer);
    this.#asked += 1;
    const mine = this.#asked;
    if (body === null) {
      this.reply = null;
      this.text = '';
      return;
    }
    this.#timer = setTimeout(() => {
      void understood(job, body, second).then((answer) => {
        if (mine !== this.#asked) return;
        this.away = !answer.ok && answer.error.kind === 'away';
        this.reply = answer.ok ? answer.value : null;
        this.text = body.text;
      });
    }, breath);
  }

  /** Only if it is about this very text. */
  of(text: string): UnderstoodReply | null {
    return this.text === text ? this.reply : null;
  }
}
