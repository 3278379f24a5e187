import type { Replies } from '../generated/wire';
import { get, post, type Answer } from './http';

export const ports = (): Answer<Replies['ports']> => get('ports', '/api/ports');
export const takePort = (port: string, device: string): Answer<Replies['ports']> =>
  post('ports', '/api/ports/take', { port, device });
export const leavePort = (port: string, device: string): Answer<Replies['ports']> =>
  post('ports', '/api/ports/leave', { port, device });
/** Used by an act, or put aside by hand. */
export const lineDone = (body: {
  number: number;
  device: string;
  job?: string;
  act?: string;
}): Answer<Replies['ports']> => post('ports', '/api/gauge-lines/done', body);

export const pairing = (): Answer<Replies['pairing']> => post('pairing', '/api/pairing', undefined);
export const pair = (code: string, name: string): Answer<Replies['paired']> =>
  post('paired', '/api/pair', { code, name });
export const devices = (): Answer<Replies['devices']> => get('devices', '/api/devices');
export const revoke = (device: string): Answer<Replies['devices']> =>
  post('devices', '/api/devices/revoke', { device });
