import { listen, type LiveListener } from '../api/live';
import { hurry } from './acts.svelte';
import { device } from './person.svelte';

/** Listens to a job as long as a component lives. What another device did is told within a second. */
export function live(job: () => string, listener: Partial<LiveListener>): void {
  $effect(() =>
    listen(job(), device, {
      accepted: (line) => listener.accepted?.(line),
      present: (line) => listener.present?.(line),
      gaugeLine: (line) => listener.gaugeLine?.(line),
      tray: (line) => listener.tray?.(line),
      open: (stands) => {
        if (stands) hurry();
        listener.open?.(stands);
      },
    }),
  );
}
