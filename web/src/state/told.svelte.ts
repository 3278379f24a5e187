import type { ActBody } from '../api/acts';
import { newId } from '../lib/ids';
import { act, forget, onAnswered, onMade, type Answered } from './acts.svelte';

type Reply = Parameters<Answered>[2];
type Problems = Extract<Reply, { kept: false }>['problems'];

/** What became of an act that a page waits for. */
export type Told =
  | { readonly kind: 'kept'; readonly event: string; readonly said: string | null }
  | { readonly kind: 'refused'; readonly problems: Problems }
  /** Written down here; the server is away. */
  | { readonly kind: 'waiting' };

/** The last act of this page, until the next one: it can be taken back. */
let last = $state<{ readonly job: string; readonly event: string; readonly said: string } | null>(null);

// Whatever is made next, on whatever page: what came before it is not the last any more. A setting with readings on it would be lost.
onMade(() => {
  last = null;
});

export const lastAct = {
  of(job: string): { readonly event: string; readonly said: string } | null {
    return last?.job === job ? last : null;
  },
  clear(): void {
    last = null;
  },
};

const patience = 5000;

/** `words`: how the page calls the act where the server says nothing of it. Keeps an act, sends it, and says what the server made of it. A refused one is not kept: the page shows why, and the person types anew. */
export async function tell(job: string, body: ActBody, words = ''): Promise<Told> {
  const id = newId();
  let stop = (): void => undefined;
  const answer = new Promise<Told>((resolve) => {
    const timer = setTimeout(() => {
      resolve({ kind: 'waiting' });
    }, patience);
    stop = onAnswered((_job, of, reply) => {
      if (of.id !== id) return;
      clearTimeout(timer);
      resolve(
        reply.kept
          ? { kind: 'kept', event: reply.event, said: reply.said ?? (words === '' ? null : words) }
          : { kind: 'refused', problems: reply.problems },
      );
    });
  });
  await act(job, body, id);
  const told = await answer;
  stop();
  if (told.kind === 'refused') await forget(id);
  if (body.act !== 'withdraw' && told.kind === 'kept') last = { job, event: told.event, said: told.said ?? words };
  return told;
}
