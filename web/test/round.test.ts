import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { validated } from '../src/api/http';
import type { RoundReply } from '../src/generated/wire';
import { lastSide, nextPlace, placesOf, readPlaces, type OwnReading } from '../src/lib/round';

const folder = join(process.env['FETTLE_SOURCE_DIR'] ?? join(import.meta.dirname, '../..'), 'tests/http/replies');
function recorded(name: string): RoundReply {
  const answer = validated('round', JSON.parse(readFileSync(join(folder, name), 'utf8')));
  if (!answer.ok) throw new Error(name);
  return answer.value;
}
const own = (id: string, place: string, more: Partial<OwnReading> = {}): OwnReading => ({
  id,
  place,
  text: '71 ↺',
  said: null,
  flag: null,
  note: '',
  who: 'JB',
  supersedes: null,
  order: 1,
  stage: 'here',
  ...more,
});
const none = new Set<string>();
const firstOf = (page: RoundReply): string => `${page.places[0]?.station ?? ''}/${page.places[0]?.direction ?? ''}`;

test('with nothing of our own, the server’s next place is ours, in every round that was recorded', () => {
  for (const name of ['round-open.en.json', 'round-unread.en.json', 'round-closed.en.json', 'round-long.en.json']) {
    const page = recorded(name);
    const places = placesOf(page, [], none);
    expect(nextPlace(places, none)?.key ?? null, name).toBe(page.next === null ? null : places[page.next]?.key);
  }
});

test('a reading of our own takes the place on at once; one that was set aside asks for the place again', () => {
  const page = recorded('round-unread.en.json');
  const first = firstOf(page);
  const read = placesOf(page, [own('a', first)], none);
  expect(read[0]?.state).toBe('read');
  expect(readPlaces(read)).toBe(1);
  expect(nextPlace(read, none)?.key).toBe(read[1]?.key);
  const carbon = placesOf(page, [own('a', first, { flag: 'deposit' })], none);
  expect(carbon[0]?.state).toBe('asked-again');
  expect(nextPlace(carbon, none)?.key).toBe(first);
  expect(nextPlace(carbon, new Set([first]))?.key).toBe(carbon[1]?.key);
  const asked = read.map((place, at) => ({ ...place, state: at === 3 ? ('asked-again' as const) : ('read' as const) }));
  expect(nextPlace(asked, none)?.key).toBe(asked[3]?.key);
  expect(nextPlace(asked, none, new Set([asked[3]?.key ?? '']))).toBeNull();
});

test('one that supersedes takes the other’s place; one taken back is gone', () => {
  const page = recorded('round-unread.en.json');
  const first = firstOf(page);
  const both = [own('a', first), own('b', first, { supersedes: 'a', flag: 'mistake' })];
  expect(placesOf(page, both, none)[0]?.readings.map((each) => each.event)).toEqual(['b']);
  expect(placesOf(page, [], new Set(['a']))[0]?.readings).toEqual([]);
});

test('a reading that the server’s page shows already is not shown twice', () => {
  const page = recorded('round-open.en.json');
  const shown = page.places.flatMap((place) =>
    place.readings.map((reading) => ({ place: `${place.station}/${place.direction}`, event: reading.event })),
  )[0];
  expect(shown).toBeDefined();
  if (shown === undefined) return;
  const places = placesOf(page, [own(shown.event, shown.place)], none);
  expect(places.flatMap((place) => place.readings).filter((each) => each.event === shown.event)).toHaveLength(1);
});

test('the needle’s side is that of the last reading', () => {
  expect(lastSide(recorded('round-open.en.json'))).toBe('anticlockwise');
  expect(lastSide(recorded('round-unread.en.json'))).toBeNull();
});
