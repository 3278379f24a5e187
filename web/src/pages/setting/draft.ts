import type { NeedlePlace } from '../../lib/needle';

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
