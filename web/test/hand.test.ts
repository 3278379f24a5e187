import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { validated } from '../src/api/http';
import type { RoundGauge, RoundHand, RoundReply } from '../src/generated/wire';
import { withSign } from '../src/lib/decimal';
import { inHand, unitOf } from '../src/lib/hand';
import { inSections } from '../src/lib/sections';

const folder = join(process.env['FETTLE_SOURCE_DIR'] ?? join(import.meta.dirname, '../..'), 'tests/http/replies');
function unread(): RoundReply {
  const answer = validated('round', JSON.parse(readFileSync(join(folder, 'round-unread.en.json'), 'utf8')));
  if (!answer.ok) throw new Error('round-unread');
  return answer.value;
}
const gauge = (unit: RoundGauge['unit'], units: RoundGauge['units']): RoundGauge => ({
  id: 'g1',
  name: 'g1',
  sort: 'direct',
  unit,
  units,
  strip: '',
  sided: false,
  halves: false,
  both_ways: false,
});
const hand = (id: string, of: RoundGauge): RoundHand => ({
  gauge: of,
  setting: { id, words: '', age_minutes: null, stale: false, why_stale: null },
  round: id,
  closed: false,
  last_order: 3,
});

test('a place has its own gauge, setting and round; one that has none has no gauge', () => {
  const page: RoundReply = {
    ...unread(),
    hands: [hand('caliper-1', gauge('mm', ['mm', 'in'])), hand('tester-1', gauge(null, ['N', 'kgf', 'lbf']))],
  };
  expect(inHand(page, { hand: 1 })?.setting?.id).toBe('tester-1');
  expect(inHand(page, { hand: 1 })?.round).toBe('tester-1');
  expect(inHand(page, { hand: 0 })?.gauge?.unit).toBe('mm');
  expect(inHand(page, { hand: null })?.gauge).toBe(null);
  expect(inHand(page, null)).toBe(page);
});

test('nobody guesses what a tester shows; what was chosen holds as long as the gauge has it', () => {
  const tester = gauge(null, ['N', 'kgf', 'lbf']);
  expect(unitOf(tester, null)).toBe(null);
  expect(unitOf(tester, 'kgf')).toBe('kgf');
  expect(unitOf(tester, 'bar')).toBe(null);
  expect(unitOf(gauge('N', ['N', 'kgf']), '')).toBe(null);
  expect(unitOf(gauge('N', ['N', 'kgf']), null)).toBe('N');
});

test('a sign turns', () => {
  expect(withSign('0.04')).toBe('-0.04');
  expect(withSign('-0.04')).toBe('0.04');
});

test('kinds are found by their sections, in the order of taking apart, and by any of their words', () => {
  const sections = [
    { id: 'valves', name: 'Valves, seats' },
    { id: 'crank', name: 'Crankshaft' },
  ];
  const items = [
    { id: 'a', name: 'Crankpins', section: 'crank' },
    { id: 'b', name: 'Valve guides', section: 'valves' },
    { id: 'c', name: 'Mine', section: null },
  ];
  expect(inSections(items, sections, '', 'Own').map((each) => each.name)).toEqual([
    'Valves, seats',
    'Crankshaft',
    'Own',
  ]);
  expect(inSections(items, sections, ' guide VALVE ', 'Own')).toEqual([{ name: 'Valves, seats', items: [items[1]] }]);
  expect(inSections(items, sections, 'camshaft', 'Own')).toEqual([]);
});
