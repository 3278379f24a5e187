import { expect, test } from 'vitest';
import { newId, nowWithOffset } from '../src/lib/ids';

test('32 hexadecimal digits, never the same', () => {
  const ids = new Set(Array.from({ length: 500 }, newId));
  expect(ids.size).toBe(500);
  for (const id of ids) expect(id).toMatch(/^[0-9a-f]{32}$/);
});

test('the time is said with the offset of where one stands, and means the same moment', () => {
  const moment = new Date('2031-05-04T08:12:05Z');
  const said = nowWithOffset(moment);
  expect(said).toMatch(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d[+-]\d\d:\d\d$/);
  expect(new Date(said).getTime()).toBe(moment.getTime());
});
