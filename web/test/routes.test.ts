import { expect, test } from 'vitest';
import { href, routeOf, routes } from '../src/lib/routes';

test('what an address says comes back from it', () => {
  const address = href('round', { job: 'linnet-4', part: 'bore 2/ü' }, { second: '1' });
  expect(routeOf(address)).toEqual({
    name: 'round',
    words: { job: 'linnet-4', part: 'bore 2/ü' },
    query: { second: '1' },
  });
  expect(routeOf('')).toEqual({ name: 'bench', words: {}, query: {} });
  expect(routeOf('#/')).toEqual({ name: 'bench', words: {}, query: {} });
});

test('no page has the address of another, and none is none', () => {
  for (const name of Object.keys(routes) as (keyof typeof routes)[])
    expect(routeOf(`#${routes[name].replace(/:[a-z]+/g, 'x')}`)?.name).toBe(name);
  expect(routeOf('#/jobs')).toBeNull();
  expect(routeOf('#/jobs//limits')).toBeNull();
  expect(routeOf('#/jobs/%E0%A4%A/limits')).toBeNull();
});
