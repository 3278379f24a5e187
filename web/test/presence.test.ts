import { afterEach, expect, test, vi } from 'vitest';
import { AtWork } from '../src/state/round/presence.svelte';

/** What went out, and the answers that the test gives one by one. */
interface Asked {
  readonly body: Record<string, unknown>;
  readonly answer: (held: boolean) => void;
}
function server(): Asked[] {
  const asked: Asked[] = [];
  vi.stubGlobal('fetch', (path: string, { body }: RequestInit) => {
    if (path === '/api/hello')
      return Promise.resolve(
        Response.json({
          format: 'fettle-hello',
          version: 1,
          program: '0',
          token: 't',
          secure: false,
          loopback: true,
          device: null,
          record: 'r',
        }),
      );
    return new Promise((resolve) => {
      asked.push({
        body: JSON.parse(typeof body === 'string' ? body : '{}') as Record<string, unknown>,
        answer: (held) => {
          resolve(
            Response.json({
              format: 'fettle-present',
              version: 1,
              held,
              held_by: held ? null : { who: 'AK', device: 'd-2' },
            }),
          );
        },
      });
    });
  });
  return asked;
}
afterEach(() => {
  vi.unstubAllGlobals();
});

test('the next part is not taken before the last one is left: said late, it would take the new place away', async () => {
  const asked = server();
  const first = new AtWork();
  const second = new AtWork();
  const left = first.leave('linnet-4');
  const taken = second.say('linnet-4', 'bore-2', 'round');
  await vi.waitFor(() => {
    expect(asked).toHaveLength(1);
  });
  expect(asked[0]?.body['part']).toBeUndefined();
  asked[0]?.answer(true);
  await left;
  await vi.waitFor(() => {
    expect(asked).toHaveLength(2);
  });
  expect(asked[1]?.body['part']).toBe('bore-2');
  asked[1]?.answer(true);
  await taken;
});

test('when whoever held the part has gone, it is asked for again', async () => {
  const asked = server();
  const here = new AtWork();
  const said = here.say('linnet-4', 'bore-1', 'round');
  await vi.waitFor(() => {
    expect(asked).toHaveLength(1);
  });
  asked[0]?.answer(false);
  await said;
  expect(here.heldBy?.who).toBe('AK');
  here.heard([{ device: 'd-2', who: 'AK', part: 'bore-1', holds: 'round' }]);
  expect(asked).toHaveLength(1);
  here.heard([]);
  await vi.waitFor(() => {
    expect(asked).toHaveLength(2);
  });
  asked[1]?.answer(true);
  await vi.waitFor(() => {
    expect(here.heldBy).toBeNull();
  });
});
