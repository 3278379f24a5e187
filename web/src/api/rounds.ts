import type { Replies } from '../generated/wire';
import { asked, get, path, post, type Answer } from './http';

export interface RoundWanted {
  readonly setting?: string | null;
  readonly round?: string | null;
  readonly second?: boolean;
  readonly who?: string | null;
  /** "station/direction" that the setting was chosen for. */
  readonly place?: string | null;
}
export const round = (job: string, part: string, wanted: RoundWanted): Answer<Replies['round']> => {
  const { second, ...rest } = wanted;
  return get('round', path`/api/jobs/${job}/rounds/${part}` + asked({ ...rest, second: second === true ? '1' : null }));
};

export interface Presence {
  readonly device: string;
  readonly who: string;
  /** Neither: gone from the part. */
  readonly part?: string;
  readonly holds?: 'round' | 'second' | 'look';
}
export const present = (job: string, body: Presence): Answer<Replies['present']> =>
  post('present', path`/api/jobs/${job}/present`, body);
