import { newId } from '../lib/ids';
import { remember, remembered } from './remembered';

/** This device and whose hands it is in. The device's id never changes; the person may, at any time. */
function deviceId(): string {
  const known = remembered('device');
  if (known !== null) return known;
  const fresh = `d-${newId()}`;
  remember('device', fresh);
  return fresh;
}

export const device = deviceId();

let initials = $state(remembered('who') ?? '');
let asking = $state(false);

export const person = {
  /** Empty until somebody said. */
  get who(): string {
    return initials;
  },
  get asking(): boolean {
    return asking || initials === '';
  },
  ask(): void {
    asking = true;
  },
  take(who: string): void {
    initials = who.trim();
    asking = false;
    remember('who', initials);
  },
  leave(): void {
    asking = false;
  },
};
