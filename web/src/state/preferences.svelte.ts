import { person } from './person.svelte';
import { remember, remembered } from './remembered';

/** What a person likes; kept on this device under the person's initials. */
export interface Preferences {
  readonly keysLeft: boolean;
  readonly tallKeys: boolean;
  /** Verdicts while measuring: off at first, because people read what they hope for. */
  readonly liveVerdicts: boolean;
  readonly spoken: boolean;
}
export type Preference = keyof Preferences;
const usual: Preferences = { keysLeft: false, tallKeys: false, liveVerdicts: false, spoken: false };

function read(who: string): Preferences {
  try {
    const kept: unknown = JSON.parse(remembered(`likes.${who}`) ?? '{}');
    if (typeof kept !== 'object' || kept === null) return usual;
    const own = kept as Partial<Record<Preference, unknown>>;
    const of = (name: Preference): boolean => (typeof own[name] === 'boolean' ? own[name] : usual[name]);
    return {
      keysLeft: of('keysLeft'),
      tallKeys: of('tallKeys'),
      liveVerdicts: of('liveVerdicts'),
      spoken: of('spoken'),
    };
  } catch {
    return usual;
  }
}

let changed = $state(0);

export const preferences = {
  get now(): Preferences {
    return changed >= 0 ? read(person.who) : usual;
  },
  set(name: Preference, value: boolean): void {
    remember(`likes.${person.who}`, JSON.stringify({ ...read(person.who), [name]: value }));
    changed += 1;
  },
};
