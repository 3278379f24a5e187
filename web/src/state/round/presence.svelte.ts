import { present, type Presence } from '../../api/rounds';
import type { LiveLinePerson } from '../../generated/wire';
import { device, person } from '../person.svelte';

/** Who is on which part. One device a part holds its round; another may read it a second time, or look. */
export class AtWork {
  people = $state.raw<readonly LiveLinePerson[]>([]);
  heldBy = $state.raw<{ who: string; device: string } | null>(null);

  async say(job: string, part: string, holds: Presence['holds']): Promise<void> {
    const answer = await present(job, { device, who: person.who, part, holds });
    if (answer.ok) this.heldBy = answer.value.held ? null : answer.value.held_by;
  }

  heard(people: readonly LiveLinePerson[]): void {
    this.people = people.filter((each) => each.device !== device);
  }
}
