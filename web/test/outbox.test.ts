import 'fake-indexeddb/auto';
import { beforeEach, expect, test, vi } from 'vitest';
import type { Act, ActBody, sendActs } from '../src/api/acts';
import { browserShelf } from '../src/state/outbox/browser_shelf';
import { Outbox, type OutboxEvents } from '../src/state/outbox/outbox';
import { memoryShelf, type Waiting } from '../src/state/outbox/shelf';

const finding = (what: string): ActBody => ({ act: 'finding', part: 'bore-1', what, weight: 'note' });

/** A server that keeps what it is sent, unless it is away; like ours it counts an id once. */
class Server {
  away = false;
  /** Takes the acts in, and is cut off before it can say so. */
  dumb = false;
  refuses: string | null = null;
  readonly kept: Act[] = [];
  readonly send: typeof sendActs = (_job, acts) => {
    if (this.away) return Promise.resolve({ ok: false, error: { kind: 'away' } });
    const replies = acts.map((act) => {
      if (act.act === 'finding' && act.what === this.refuses)
        return { id: act.id, kept: false as const, problems: [{ code: 'x.y', what: 'no', do: 'again' }] };
      if (!this.kept.some((each) => each.id === act.id)) this.kept.push(act);
      return { id: act.id, kept: true as const, event: act.id, position: this.kept.length, said: null, question: null };
    });
    if (this.dumb) return Promise.resolve({ ok: false, error: { kind: 'away' } });
    return Promise.resolve({
      ok: true,
      value: { format: 'fettle-kept', version: 1, position: this.kept.length, acts: replies },
    } as Awaited<ReturnType<typeof sendActs>>);
  };
}

let server: Server;
let waiting: readonly Waiting[];
let answered: string[];
let forgetful: number;
const events: OutboxEvents = {
  changed: (now) => {
    waiting = now;
  },
  answered: (_job, act, reply) => {
    answered.push(`${act.act === 'finding' ? act.what : act.act} ${String(reply.kept)}`);
  },
  reached: () => undefined,
  forgetful: () => {
    forgetful += 1;
  },
};
const what = (acts: readonly Act[]): string[] => acts.map((act) => (act.act === 'finding' ? act.what : act.act));

beforeEach(() => {
  server = new Server();
  waiting = [];
  answered = [];
  forgetful = 0;
  indexedDB = new IDBFactory();
});

test('acts wait while the server is away and go over in the order they were made, once', async () => {
  vi.useFakeTimers();
  const outbox = new Outbox(memoryShelf(), events, server.send);
  await outbox.open();
  server.away = true;
  for (const each of ['a', 'b', 'c']) await outbox.add('linnet-4', 'd-1', 'JB', finding(each));
  expect(waiting.map((each) => each.act.sequence)).toEqual([1, 2, 3]);
  server.away = false;
  await vi.advanceTimersByTimeAsync(20000);
  expect(what(server.kept)).toEqual(['a', 'b', 'c']);
  expect(answered).toEqual(['a true', 'b true', 'c true']);
  expect(waiting).toEqual([]);
  vi.useRealTimers();
});

test('what the server took without being able to say so goes again and counts once', async () => {
  const outbox = new Outbox(memoryShelf(), events, server.send);
  await outbox.open();
  server.dumb = true;
  await outbox.add('linnet-4', 'd-1', 'JB', finding('a'));
  await outbox.flush();
  expect(waiting).toHaveLength(1);
  server.dumb = false;
  outbox.hurry();
  await vi.waitFor(() => {
    expect(waiting).toEqual([]);
  });
  expect(what(server.kept)).toEqual(['a']);
});

test('a refused act holds up no other, and stays until somebody looked at it', async () => {
  const outbox = new Outbox(memoryShelf(), events, server.send);
  await outbox.open();
  server.refuses = 'b';
  for (const each of ['a', 'b', 'c']) await outbox.add('linnet-4', 'd-1', 'JB', finding(each));
  await vi.waitFor(() => {
    expect(what(server.kept)).toEqual(['a', 'c']);
  });
  await vi.waitFor(() => {
    expect(waiting.map((each) => each.refused?.[0]?.what)).toEqual(['no']);
  });
  await outbox.forget(waiting[0]?.act.id ?? '');
  expect(waiting).toEqual([]);
});

test('in the browser’s own store acts outlive the page, and the count of the device goes on', async () => {
  server.away = true;
  const first = new Outbox(await browserShelf(), events, server.send);
  await first.open();
  await first.add('linnet-4', 'd-1', 'JB', finding('a'));
  await first.add('linnet-4', 'd-1', 'JB', finding('b'));
  // The tab is closed; another one opens.
  server.away = false;
  const second = new Outbox(await browserShelf(), events, server.send);
  await second.open();
  await vi.waitFor(() => {
    expect(what(server.kept)).toEqual(['a', 'b']);
  });
  const later = await second.add('linnet-4', 'd-1', 'JB', finding('c'));
  expect(later.sequence).toBe(3);
  await vi.waitFor(async () => {
    expect(await second.shelf.all()).toEqual([]);
  });
});

test('acts of two jobs go to their own', async () => {
  const sent: string[] = [];
  const outbox = new Outbox(memoryShelf(), events, (job, acts) => {
    sent.push(`${job} ${what(acts).join()}`);
    return server.send(job, acts);
  });
  server.away = true;
  await outbox.add('linnet-4', 'd-1', 'JB', finding('a'));
  await outbox.add('tern', 'd-1', 'JB', finding('b'));
  server.away = false;
  sent.length = 0;
  outbox.hurry();
  await vi.waitFor(() => {
    expect(waiting).toEqual([]);
  });
  expect(sent).toEqual(['linnet-4 a', 'tern b']);
});

test('a job that the server does not know holds up no other', async () => {
  vi.useFakeTimers();
  const outbox = new Outbox(memoryShelf(), events, (job, acts) =>
    job === 'gone'
      ? Promise.resolve({ ok: false, error: { kind: 'refused', status: 404, problems: [] } })
      : server.send(job, acts),
  );
  await outbox.open();
  await outbox.add('gone', 'd-1', 'JB', finding('a'));
  await outbox.add('linnet-4', 'd-1', 'JB', finding('b'));
  await outbox.add('linnet-4', 'd-1', 'JB', finding('c'));
  await vi.advanceTimersByTimeAsync(2000);
  expect(what(server.kept)).toEqual(['b', 'c']);
  expect(waiting.map((each) => each.job)).toEqual(['gone']);
  vi.useRealTimers();
});

/** The browser's small store, as far as it is used. */
class SmallStore {
  [key: string]: unknown;
  setItem(key: string, value: string): void {
    this[key] = value;
  }
  getItem(key: string): string | null {
    return (this[key] as string | undefined) ?? null;
  }
  removeItem(key: string): void {
    Reflect.deleteProperty(this, key);
  }
}

test('an act that was still being written when the page was reloaded is there all the same, once', async () => {
  vi.stubGlobal('localStorage', new SmallStore());
  const slow = memoryShelf();
  slow.add = () => new Promise(() => undefined);
  const first = new Outbox(slow, events, server.send);
  await first.open();
  void first.add('linnet-4', 'd-1', 'JB', finding('a'));
  void first.add('linnet-4', 'd-1', 'JB', finding('b'));
  expect(what(server.kept)).toEqual([]);
  const second = new Outbox(await browserShelf(), events, server.send);
  await second.open();
  await vi.waitFor(() => {
    expect(what(server.kept)).toEqual(['a', 'b']);
  });
  expect(Object.keys(localStorage)).toEqual([]);
  vi.unstubAllGlobals();
});

test('what another tab of the browser wrote down is shown here too, and gone when it went over', async () => {
  const seen: string[][] = [];
  const other = new Outbox(
    await browserShelf(),
    { ...events, changed: (now) => seen.push(what(now.map((each) => each.act))) },
    server.send,
  );
  await other.open();
  server.away = true;
  const own = new Outbox(await browserShelf(), events, server.send);
  await own.open();
  await own.add('linnet-4', 'd-1', 'JB', finding('a'));
  await other.lookAgain();
  expect(seen.at(-1)).toEqual(['a']);
  server.away = false;
  own.hurry();
  await vi.waitFor(() => {
    expect(waiting).toEqual([]);
  });
  await other.lookAgain();
  expect(seen.at(-1)).toEqual([]);
  expect(what(server.kept)).toEqual(['a']);
});

test('an act that lies in the browser’s own store already keeps its place', async () => {
  const shelf = await browserShelf();
  const fresh = { ...finding('a'), id: 'x', device: 'd-1', who: 'JB', made_at: '2026-01-05T10:00:00+00:00' };
  const once = await shelf.add('linnet-4', fresh);
  expect(await shelf.add('linnet-4', fresh)).toEqual(once);
  expect(await shelf.all()).toEqual([once]);
});

test('of a parcel that cannot be read, the one act at fault is refused and the others arrive', async () => {
  const sizes: number[] = [];
  const problems = [{ code: 'wire.not_an_id', where: null, what: 'no id', do: 'again' }];
  const outbox = new Outbox(memoryShelf(), events, (job, acts) => {
    sizes.push(acts.length);
    return acts.some((act) => what([act])[0] === 'bad')
      ? Promise.resolve({ ok: false, error: { kind: 'refused', status: 400, problems } })
      : server.send(job, acts);
  });
  server.away = true;
  for (const each of ['a', 'b', 'bad', 'c', 'd']) await outbox.add('linnet-4', 'd-1', 'JB', finding(each));
  await vi.waitFor(() => {
    expect(waiting).toHaveLength(5);
  });
  server.away = false;
  sizes.length = 0;
  outbox.hurry();
  await vi.waitFor(() => {
    expect(what(server.kept)).toEqual(['a', 'b', 'c', 'd']);
  });
  expect(waiting.map((each) => each.refused?.[0]?.what)).toEqual(['no id']);
  expect(Math.max(...sizes)).toBeLessThanOrEqual(5);
});

test('a parcel is counted in bytes, not in acts alone', async () => {
  const bytes: number[] = [];
  const outbox = new Outbox(memoryShelf(), events, (job, acts) => {
    bytes.push(new TextEncoder().encode(JSON.stringify(acts)).length);
    return server.send(job, acts);
  });
  server.away = true;
  const long = (letter: string): string => `${letter}${'ö'.repeat(2000)}`;
  for (const each of 'abcdefghijklmnopqrst') await outbox.add('linnet-4', 'd-1', 'JB', finding(long(each)));
  server.away = false;
  bytes.length = 0;
  outbox.hurry();
  await vi.waitFor(() => {
    expect(
      what(server.kept)
        .map((each) => each.charAt(0))
        .join(''),
    ).toBe('abcdefghijklmnopqrst');
  });
  expect(Math.max(...bytes)).toBeLessThan(30000);
  expect(bytes.length).toBeGreaterThan(2);
});

test('a store that is full loses nothing: the page is told, and the act goes over all the same', async () => {
  const shelf = memoryShelf();
  const outbox = new Outbox(shelf, events, server.send);
  await outbox.open();
  server.away = true;
  await outbox.add('linnet-4', 'd-1', 'JB', finding('a'));
  shelf.add = () => Promise.reject(new Error('full'));
  shelf.remove = () => Promise.reject(new Error('full'));
  const second = await outbox.add('linnet-4', 'd-1', 'JB', finding('b'));
  expect(second.sequence).toBe(2);
  expect(forgetful).toBe(1);
  expect(waiting).toHaveLength(2);
  server.away = false;
  outbox.hurry();
  await vi.waitFor(() => {
    expect(waiting).toEqual([]);
  });
  expect(what(server.kept)).toEqual(['a', 'b']);
});

test('a page of the server is kept as it was last seen', async () => {
  const shelf = await browserShelf();
  await shelf.keepPage('round x', { a: 1 });
  expect(await (await browserShelf()).page('round x')).toEqual({ a: 1 });
  expect(await shelf.page('none')).toBeUndefined();
});
