import type { NeedlePlace } from '../../lib/needle';
import { remembered } from '../../state/remembered';

/** What was typed of a setting that is not kept yet; remembered on this device. */
export const empty = {
  set: '',
  unit: '',
  zeros: [] as readonly NeedlePlace[],
  part: '',
  master: '',
  lockedOn: '',
  same: false,
};
export type Draft = typeof empty;

/** As it was left on this device. */
export function draftOf(key: string): Draft {
  try {
    const kept: unknown = JSON.parse(remembered(key) ?? 'null');
    return typeof kept === 'object' && kept !== null ? { ...empty, ...kept } : empty;
  } catch {
    return empty;
  }
}
