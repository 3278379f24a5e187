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

/** A line that the browser gave up (refused, or a server between two starts) is opened anew after so long. */
const anew = 2000;

/** Listens to a job until the function that it gives is called. The browser comes back by itself after most breaks, and we after the rest. */
export function listen(job: string, device: string, listener: LiveListener): () => void {
  let source: EventSource | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;

  function open(): void {
    const line = new EventSource(`/api/live${asked({ job, device })}`);
    source = line;
    // The shape was looked at; which of the shapes an event has, its name says.
    // eslint-disable-next-line @typescript-eslint/no-unnecessary-type-parameters
    const on = <T extends object>(name: string, act: (line: T) => void): void => {
      line.addEventListener(name, (event) => {
        const read = lineOf(event);
        if (read !== null) act(read as T);
      });
    };
    on('accepted', listener.accepted);
    on('present', listener.present);
    on('gauge-line', listener.gaugeLine);
    on('tray', listener.tray);
    line.addEventListener('open', () => {
      listener.open(true);
    });
    line.addEventListener('error', () => {
      listener.open(false);
      if (line.readyState === EventSource.CLOSED) timer = setTimeout(open, anew);
    });
  }

  open();
  return () => {
    clearTimeout(timer);
    source?.close();
  };
}
