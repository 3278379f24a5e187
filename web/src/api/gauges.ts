import type { Replies } from '../generated/wire';
import { asked, get, path, post, type Answer } from './http';

export const gaugesFor = (job: string, partOrKind: string, at: string | null): Answer<Replies['gauge-page']> =>
  get('gauge-page', path`/api/jobs/${job}/gauges` + asked({ for: partOrKind, at }));

export const settingUp = (
  job: string,
  wanted: { gauge: string; for: string; master?: string | null; size?: string | null; set?: string | null },
): Answer<Replies['setting-page']> => get('setting-page', path`/api/jobs/${job}/setting-up` + asked(wanted));

export interface Proof {
  readonly gauge: string;
  readonly for: string;
  readonly master?: string;
  readonly size?: string;
  readonly set?: string;
  readonly shows: string;
  readonly side: 'clockwise' | 'anticlockwise';
}
export const proof = (job: string, body: Proof): Answer<Replies['proof']> =>
  post('proof', path`/api/jobs/${job}/proof`, body);
