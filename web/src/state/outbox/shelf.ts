import type { Act, ActBody } from '../../api/acts';

/** An act on its way: durable here, and waiting for the server; or refused by it, until somebody looked. */
export interface Waiting {
  readonly job: string;
  readonly act: Act;
  readonly refused: readonly { readonly code: string; readonly what: string; readonly do: string }[] | null;
}
export type Fresh = Omit<Act, keyof ActBody | 'sequence'> & ActBody;

/** Where acts lie until the server has them. */
export interface Shelf {
  /** False: lost when the page is closed. */
  readonly durable: boolean;
  /** Gives the act its place in this device's order; resolves when it is written for good. One that lies here keeps the place it has. */
  add(job: string, act: Fresh): Promise<Waiting>;
  all(): Promise<Waiting[]>;
  put(waiting: Waiting): Promise<void>;
  remove(id: string): Promise<void>;
  /** A page of the server as it was last seen. */
  keepPage(key: string, page: unknown): Promise<void>;
  page(key: string): Promise<unknown>;
}

/** For a browser that keeps nothing, and for tests. */
export function memoryShelf(): Shelf {
  let sequence = 0;
  const acts = new Map<string, Waiting>();
  const pages = new Map<string, unknown>();
  return {
    durable: false,
    add: (job, act) => {
      const there = acts.get(act.id);
      if (there !== undefined) return Promise.resolve(there);
      sequence += 1;
      const waiting: Waiting = { job, act: { ...act, sequence }, refused: null };
      acts.set(act.id, waiting);
      return Promise.resolve(waiting);
    },
    all: () => Promise.resolve([...acts.values()].sort((a, b) => a.act.sequence - b.act.sequence)),
    put: (waiting) => {
      acts.set(waiting.act.id, waiting);
      return Promise.resolve();
    },
    remove: (id) => {
      acts.delete(id);
      return Promise.resolve();
    },
    keepPage: (key, page) => {
      pages.set(key, page);
      return Promise.resolve();
    },
    page: (key) => Promise.resolve(pages.get(key) ?? null),
  };
}
