import { unitOf, type Unit } from '../../lib/hand';
import type { RoundReply } from '../../generated/wire';
import { remember, remembered } from '../remembered';

/** In which unit the figures of a setting are typed, where nobody can tell by the sort of gauge. Remembered on this device. */
export class Units {
  /** By setting; empty: to be chosen anew. */
  #chosen = $state.raw<Readonly<Record<string, string>>>({});

  constructor(private readonly job: string) {}

  /** Null: nobody has said it yet. */
  of(page: RoundReply | null): Unit | null {
    if (page?.gauge == null || page.setting === null) return null;
    const { id } = page.setting;
    return unitOf(page.gauge, this.#chosen[id] ?? remembered(`unit.${this.job}.${id}`));
  }

  /** Null: none is chosen any more, and all stand there to choose from. */
  choose(page: RoundReply | null, unit: Unit | null): void {
    const setting = page?.setting ?? null;
    if (setting === null) return;
    this.#chosen = { ...this.#chosen, [setting.id]: unit ?? '' };
    if (unit !== null) remember(`unit.${this.job}.${setting.id}`, unit);
  }
}
