import { sendActs, type Act, type ActBody } from '../../api/acts';
import { newId, nowWithOffset } from '../../lib/ids';
import { begin, begun, end } from './half_written';
import { isForWhatIsInIt, Parcels } from './parcels';
import type { Fresh, Shelf, Waiting } from './shelf';

type Sent = Awaited<ReturnType<typeof sendActs>>;
export type ServerKept = Extract<Sent, { ok: true }>['value'];
export type ActReply = ServerKept['acts'][number];

export interface OutboxEvents {
  /** What waits or was refused, after every change. `here`: made by this page, not heard of another one. */
  changed(waiting: readonly Waiting[], here: boolean): void;
  /** The server has it, or will not have it. `position`: of the job's log, once all of this parcel are in. */
  answered(job: string, act: Act, reply: ActReply, position: number): void;
  /** Whether the server answered the last time. */
  reached(yes: boolean): void;
  /** This browser keeps nothing (any more): full, or taken away. What is made now is lost with the page. */
  forgetful(): void;
}

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
  /** The highest place in this device's order that was given. */
  #sequence = 0;
  readonly #parcels = new Parcels();
  /** Acts that the browser's store did not take: they are in this page alone. */
  readonly #unshelved = new Set<string>();

  constructor(
    readonly shelf: Shelf,
    private readonly events: OutboxEvents,
    private readonly send: typeof sendActs = sendActs,
  ) {}

  async open(): Promise<void> {
    const halfWritten: Waiting[] = [];
    for (const { job, act } of begun()) halfWritten.push(await this.#written(job, act));
    const shelved = await this.shelf.all();
    const known = new Set(shelved.map((each) => each.act.id));
    this.#sequence = Math.max(this.#sequence, ...shelved.map((each) => each.act.sequence));
    this.#waiting = [...shelved, ...halfWritten.filter((each) => !known.has(each.act.id))];
    this.events.changed(this.#waiting, true);
    void this.flush();
  }

  /** Resolves when the act is written here for good; where the browser's store fails, when it is in memory and the page was told. */
  async add(job: string, device: string, who: string, body: ActBody, id = newId()): Promise<Act> {
    const fresh: Fresh = { ...body, id, device, who, made_at: nowWithOffset() };
    begin(job, fresh);
    const waiting = await this.#written(job, fresh);
    if (!this.#waiting.some((each) => each.act.id === id)) this.#waiting = [...this.#waiting, waiting];
    this.events.changed(this.#waiting, true);
    void this.flush();
    return waiting.act;
  }

  /** Another tab of this browser wrote down, sent or was refused something: shown here too. The tab that made it sends it. */
  async lookAgain(): Promise<void> {
    if (!this.shelf.durable) return;
    const shelved = await this.shelf.all();
    this.#waiting = [...shelved, ...this.#waiting.filter((each) => this.#unshelved.has(each.act.id))];
    this.events.changed(this.#waiting, false);
  }

  async #written(job: string, fresh: Fresh): Promise<Waiting> {
    try {
      const waiting = await this.shelf.add(job, fresh);
      this.#sequence = Math.max(this.#sequence, waiting.act.sequence);
      end(fresh.id);
      return waiting;
    } catch {
      this.events.forgetful();
      this.#unshelved.add(fresh.id);
      this.#sequence += 1;
      return { job, act: { ...fresh, sequence: this.#sequence }, refused: null };
    }
  }

  /** A refused act that somebody looked at. */
  async forget(id: string): Promise<void> {
    await this.#take(id);
    this.events.changed(this.#waiting, true);
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
      do while (await this.#sendOnce());
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
  async #sendOnce(): Promise<boolean> {
    const open = this.#waiting.filter((each) => each.refused === null);
    const jobs = [...new Set(open.map((each) => each.job))];
    let more = false;
    for (const job of jobs) {
      const ofJob = open.filter((each) => each.job === job).map((each) => each.act);
      const acts = this.#parcels.of(job, ofJob);
      const answer = await this.send(job, acts);
      this.events.reached(answer.ok || answer.error.kind === 'refused');
      if (answer.ok) {
        this.#pause = firstPause;
        this.#parcels.arrived(job);
        for (const reply of answer.value.acts) await this.#settle(job, acts, reply, answer.value.position);
        this.events.changed(this.#waiting, true);
        more ||= answer.value.acts.length > 0;
        continue;
      }
      if (answer.error.kind === 'refused' && isForWhatIsInIt(answer.error)) {
        const atFault = this.#parcels.refused(job, acts);
        if (atFault !== null) await this.#refuse(job, atFault, answer.error.problems);
        more = true;
        continue;
      }
      // A refusal of the whole parcel (not paired, no such job) is no word on the acts: they stay, and are tried again. It holds
      // up no other job; where nobody is there, no other would arrive either.
      this.#later();
      if (answer.error.kind !== 'refused') return false;
    }
    return more || this.#waiting.some((each) => each.refused === null && !jobs.includes(each.job));
  }

  async #refuse(job: string, act: Act, problems: NonNullable<Waiting['refused']>): Promise<void> {
    const refused: Waiting = { job, act, refused: problems };
    await this.shelf.put(refused).catch(() => undefined);
    this.#waiting = this.#waiting.map((each) => (each.act.id === act.id ? refused : each));
    this.events.changed(this.#waiting, true);
  }

  async #settle(job: string, acts: readonly Act[], reply: ActReply, position: number): Promise<void> {
    const act = acts.find((each) => each.id === reply.id);
    if (act === undefined) return;
    if (reply.kept) {
      await this.#take(act.id);
    } else {
      await this.#refuse(job, act, reply.problems);
    }
    this.events.answered(job, act, reply, position);
  }

  async #take(id: string): Promise<void> {
    // What cannot be taken off the shelf goes once more at the next start, and counts once.
    await this.shelf.remove(id).catch(() => undefined);
    end(id);
    this.#waiting = this.#waiting.filter((each) => each.act.id !== id);
  }

  #later(): void {
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.flush(), this.#pause);
    this.#pause = Math.min(this.#pause * 2, longestPause);
  }
}
