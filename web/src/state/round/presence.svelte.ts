import { present, type Presence } from '../../api/rounds';
import type { LiveLinePerson } from '../../generated/wire';
import { device, person } from '../person.svelte';

/** One after the other: "gone from bore 1" said late would take away the place at bore 2. */
let before: Promise<unknown> = Promise.resolve();
function inTurn<T>(say: () => Promise<T>): Promise<T> {
  const turn = before.then(say);
  before = turn;
  return turn;
}

/** Who is on which part. One device a part holds its round; another may read it a second time, or look. */
export class AtWork {
  people = $state.raw<readonly LiveLinePerson[]>([]);
  heldBy = $state.raw<{ who: string; device: string } | null>(null);
  /** Who reads the part in our place. Another device of the same person is none: whose phone went flat goes on with the next. */
  readonly other = $derived.by(() => (this.heldBy === null || this.heldBy.who === person.who ? null : this.heldBy.who));
  #said: (() => Promise<void>) | null = null;

  async say(job: string, part: string, holds: NonNullable<Presence['holds']>): Promise<void> {
    const { who } = person;
    this.#said = () => this.say(job, part, holds);
    const answer = await inTurn(() => present(job, { device, who, part, holds }));
    if (answer.ok) this.heldBy = answer.value.held ? null : answer.value.held_by;
  }
  /** Gone from the part: the place is free. */
  async leave(job: string): Promise<void> {
    const { who } = person;
    this.#said = null;
    await inTurn(() => present(job, { device, who }));
  }

  heard(people: readonly LiveLinePerson[]): void {
    this.people = people.filter((each) => each.device !== device);
    // Whoever held the part has gone: asked for again, so that the line does not say so for ever.
    const { heldBy } = this;
    if (heldBy !== null && !people.some((each) => each.device === heldBy.device && each.holds === 'round'))
      void this.#said?.();
  }
}
