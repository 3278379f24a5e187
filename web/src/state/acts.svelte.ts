import type { Act, ActBody } from '../api/acts';
import { newId } from '../lib/ids';
import { browserShelf } from './outbox/browser_shelf';
import { Outbox, type ActReply } from './outbox/outbox';
import { memoryShelf, type Shelf, type Waiting } from './outbox/shelf';
import { device, person } from './person.svelte';

/** What the page does goes through here, whatever page it is: kept first, sent when the server is there. */
let waiting = $state.raw<readonly Waiting[]>([]);
let reached = $state(true);
let durable = $state(true);
/** Acts that are not even written here yet. */
let writing = $state(0);

export type Answered = (job: string, act: Act, reply: ActReply, position: number) => void;
const listeners = new Set<Answered>();
export type Made = (job: string, id: string) => void;
const makers = new Set<Made>();

/** Other tabs of this browser show what this one wrote down. */
const tabs = new BroadcastChannel('fettle.acts');

async function open(): Promise<Outbox> {
  let shelf: Shelf;
  try {
    shelf = await browserShelf();
  } catch {
    shelf = memoryShelf();
  }
  durable = shelf.durable;
  const outbox = new Outbox(shelf, {
    changed: (now, here) => {
      waiting = now;
      if (here) tabs.postMessage('changed');
    },
    answered: (job, act, reply, position) => {
      for (const each of listeners) each(job, act, reply, position);
    },
    reached: (yes) => {
      reached = yes;
    },
    forgetful: () => {
      durable = false;
    },
  });
  await outbox.open();
  return outbox;
}

const ready = open();
tabs.onmessage = () => {
  void ready.then((outbox) => outbox.lookAgain());
};
addEventListener('online', () => {
  hurry();
});

export function hurry(): void {
  void ready.then((outbox) => {
    outbox.hurry();
  });
}

/** Resolves when it is written on this device for good; the server follows. */
export async function act(job: string, body: ActBody, id = newId()): Promise<Act> {
  writing += 1;
  for (const each of makers) each(job, id);
  try {
    return await (await ready).add(job, device, person.who, body, id);
  } finally {
    writing -= 1;
  }
}

/** Tells of each act that the server has, or will not have. Gives the function that ends it. */
export function onAnswered(listener: Answered): () => void {
  listeners.add(listener);
  return () => {
    listeners.delete(listener);
  };
}

/** Tells of each act as it is made here, before anybody answers. */
export function onMade(maker: Made): void {
  makers.add(maker);
}

export async function forget(id: string): Promise<void> {
  await (await ready).forget(id);
}

export async function keepPage(key: string, page: unknown): Promise<void> {
  await (await ready).shelf.keepPage(key, page).catch(() => undefined);
}
export async function keptPage(key: string): Promise<unknown> {
  return (await ready).shelf.page(key).catch(() => null);
}

export const outbox = {
  /** Durable here, not yet on the server. */
  get unsent(): readonly Waiting[] {
    return waiting.filter((each) => each.refused === null);
  },
  /** Not even durable here yet. */
  get writing(): number {
    return writing;
  },
  get refused(): readonly Waiting[] {
    return waiting.filter((each) => each.refused !== null);
  },
  get reached(): boolean {
    return reached;
  },
  /** False: this browser keeps nothing. */
  get durable(): boolean {
    return durable;
  },
};
