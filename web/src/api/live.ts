import type { LiveLineAccepted, LiveLineGaugeLine, LiveLinePresent, LiveLineTray } from '../generated/wire';
import { asked, validated } from './http';

export interface LiveListener {
  readonly accepted: (line: LiveLineAccepted) => void;
  readonly present: (line: LiveLinePresent) => void;
  readonly gaugeLine: (line: LiveLineGaugeLine) => void;
  readonly tray: (line: LiveLineTray) => void;
  /** The line stands (again), or it broke. */
  readonly open: (stands: boolean) => void;
}

function lineOf(event: Event): unknown {
  if (!(event instanceof MessageEvent) || typeof event.data !== 'string') return null;
  try {
    const value: unknown = JSON.parse(event.data);
    return validated('live-line', value).ok ? value : null;
  } catch {
    return null;
  }
}

/** Listens to a job until the function that it gives is called. The browser comes back by itself after a break. */
export function listen(job: string, device: string, listener: LiveListener): () => void {
  const source = new EventSource(`/api/live${asked({ job, device })}`);
  // The shape was looked at; which of the shapes an event has, its name says.
  // eslint-disable-next-line @typescript-eslint/no-unnecessary-type-parameters
  const on = <T extends object>(name: string, act: (line: T) => void): void => {
    source.addEventListener(name, (event) => {
      const line = lineOf(event);
      if (line !== null) act(line as T);
    });
  };
  on('accepted', listener.accepted);
  on('present', listener.present);
  on('gauge-line', listener.gaugeLine);
  on('tray', listener.tray);
  source.addEventListener('open', () => {
    listener.open(true);
  });
  source.addEventListener('error', () => {
    listener.open(false);
  });
  return () => {
    source.close();
  };
}
