import { sendActs, type Act, type ActBody } from '../../api/acts';
import { newId, nowWithOffset } from '../../lib/ids';
import type { Shelf, Waiting } from './shelf';

type Sent = Awaited<ReturnType<typeof sendActs>>;
export type ServerKept = Extract<Sent, { ok: true }>['value'];
export type ActReply = ServerKept['acts'][number];

export interface OutboxEvents {
  /** What waits or was refused, after every change. */
  changed(waiting: readonly Waiting[]): void;
  /** The server has it, or will not have it. `position`: of the job's log, once all of this parcel are in. */
  answered(job: string, act: Act, reply: ActReply, position: number): void;
  /** Whether the server answered the last time. */
  reached(yes: boolean): void;
}

/** Not more in one parcel than the server takes in one body. */
const parcel = 40;
const firstPause = 500;
const longestPause = 15000;

/**
 * Acts on their way to the server: written down first, sent in the order they were made, until the server has said of each that
 * it is kept or why not. An act's id is its event's id, so one that went twice counts once.
 */
export class Outbox {
  #waiting: Waiting[] = [];
  #sending = false;
  #hurried = false;
  #pause = firstPause;
  #timer: ReturnType<typeof setTimeout> | null = null;

  constructor(
    readonly shelf: Shelf,
    private readonly events: OutboxEvents,
    private readonly send: typeof sendActs = sendActs,
  ) {}

  async open(): Promise<void> {
    this.#waiting = await this.shelf.all();
    this.events.changed(this.#waiting);
    void this.flush();
  }

  /** Resolves when the act is written here for good. */
  async add(job: string, device: string, who: string, body: ActBody, id = newId()): Promise<Act> {
    const waiting = await this.shelf.add(job, { ...body, id, device, who, made_at: nowWithOffset() });
    this.#waiting = [...this.#waiting, waiting];
    this.events.changed(this.#waiting);
    void this.flush();
    return waiting.act;
  }

  /** A refused act that somebody looked at. */
  async forget(id: string): Promise<void> {
    await this.#take(id);
    this.events.changed(this.#waiting);
  }

  /** Now, without waiting for the pause to end: the network or the server is said to be back. */
  hurry(): void {
    this.#pause = firstPause;
    this.#hurried = this.#sending;
    void this.flush();
  }

  async flush(): Promise<void> {
    if (this.#sending) return;
    this.#sending = true;
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#timer = null;
    try {
      // Again where somebody said that the server is back while the last attempt was still failing.
      do while (await this.#sendFirst());
      while (this.#takeHurry());
    } finally {
      this.#sending = false;
    }
  }

  #takeHurry(): boolean {
    const hurried = this.#hurried;
    this.#hurried = false;
    return hurried;
  }

  /** Whether there may be more to send. */
  async #sendFirst(): Promise<boolean> {
    const open = this.#waiting.filter((each) => each.refused === null);
    const job = open[0]?.job;
    if (job === undefined) return false;
    const acts = open
      .filter((each) => each.job === job)
      .slice(0, parcel)
      .map((each) => each.act);
    const answer = await this.send(job, acts);
    this.events.reached(answer.ok || answer.error.kind === 'refused');
    if (!answer.ok) {
      // A refusal of the whole parcel (not paired, no such job) is no word on the acts: they stay, and are tried again.
      this.#later();
      return false;
    }
    this.#pause = firstPause;
    for (const reply of answer.value.acts) await this.#settle(job, acts, reply, answer.value.position);
    this.events.changed(this.#waiting);
    return answer.value.acts.length > 0;
  }

  async #settle(job: string, acts: readonly Act[], reply: ActReply, position: number): Promise<void> {
    const act = acts.find((each) => each.id === reply.id);
    if (act === undefined) return;
    if (reply.kept) {
      await this.#take(act.id);
    } else {
      const refused: Waiting = { job, act, refused: reply.problems };
      await this.shelf.put(refused);
      this.#waiting = this.#waiting.map((each) => (each.act.id === act.id ? refused : each));
    }
    this.events.answered(job, act, reply, position);
  }

  async #take(id: string): Promise<void> {
    await this.shelf.remove(id);
    this.#waiting = this.#waiting.filter((each) => each.act.id !== id);
  }

  #later(): void {
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.flush(), this.#pause);
    this.#pause = Math.min(this.#pause * 2, longestPause);
  }
}
