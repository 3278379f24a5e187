import type { Fresh } from './shelf';

/** An act on its way into the browser's database. */
interface Begun {
  readonly job: string;
  readonly act: Fresh;
  /** Rises with each. */
  readonly at: number;
}
const prefix = 'fettle.begun.';
let last = 0;

/**
 * Acts that the browser's database has not yet written for good. Its small store takes a note of each at once, so that a page that is
 * reloaded in that moment still has them; against a power cut only the database helps.
 */
export function begin(job: string, act: Fresh): void {
  last = Math.max(last + 1, Date.now());
  try {
    localStorage.setItem(prefix + act.id, JSON.stringify({ job, act, at: last } satisfies Begun));
  } catch {
    // Full or forbidden: the database alone.
  }
}

export function end(id: string): void {
  try {
    localStorage.removeItem(prefix + id);
  } catch {
    // Nothing was noted either.
  }
}

/** What a page before this one had begun, in the order it was made. */
export function begun(): readonly Begun[] {
  try {
    const keys = Object.keys(localStorage).filter((key) => key.startsWith(prefix));
    const found = keys.flatMap((key) => {
      const text = localStorage.getItem(key);
      return text === null ? [] : [JSON.parse(text) as Begun];
    });
    return found.sort((a, b) => a.at - b.at);
  } catch {
    return [];
  }
}
