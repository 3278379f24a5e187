import { expect, test } from 'vitest';
import { inMarkOfJob, withUnit } from '../src/lib/decimal';
import { usualCount } from '../src/lib/groups';
import { agree, type NeedlePlace } from '../src/lib/needle';
import { when } from '../src/lib/when';

const at = (text: string, side: NeedlePlace['side'] = 'clockwise'): NeedlePlace => ({ text, side });

test('zeros agree within so many divisions, across the zero and by halves', () => {
  expect(agree([at('0'), at('1', 'anticlockwise'), at('0')], 2)).toBe(true);
  expect(agree([at('1'), at('1', 'anticlockwise'), at('0')], 2)).toBe(true);
  expect(agree([at('1½'), at('1', 'anticlockwise'), at('0')], 2)).toBe(false);
  expect(agree([at('½'), at('2', 'anticlockwise')], 2)).toBe(false);
  expect(agree([at('3'), at('0'), at('0')], 2)).toBe(false);
});

test('what cannot be counted in divisions is left to the server', () => {
  expect(agree([at('0.2'), at('9')], 2)).toBe(true);
  expect(agree([], 2)).toBe(true);
});

test('digits that the server wrote go back in the mark of the job', () => {
  expect(inMarkOfJob('3,3070', 'point')).toBe('3.3070');
  expect(inMarkOfJob('84.000 mm', 'comma')).toBe('84,000 mm');
  expect(inMarkOfJob('.0005 in', 'comma')).toBe(',0005 in');
  expect(inMarkOfJob('84,000 mm', null)).toBe('84,000 mm');
});

test('a unit is added where none was typed', () => {
  expect(withUnit(' 78.1 ', 'mm')).toBe('78.1 mm');
  expect(withUnit('3.07 in', 'mm')).toBe('3.07 in');
  expect(withUnit('', 'mm')).toBe('');
});

test('an engine of four cylinders has five mains', () => {
  expect(['cylinder-bore', 'piston', 'crankpin', 'main-journal', 'face'].map((kind) => usualCount(kind, 4))).toEqual([
    4, 4, 4, 5, 1,
  ]);
});

test('a time is written as people write it; what is no time stays', () => {
  expect(when('2031-05-04T10:12:05Z', 'en')).toMatch(/4 May 2031/);
  expect(when('2031-05-04T10:12:05Z', 'de')).toMatch(/04\.05\.2031/);
  expect(when('yesterday', 'en')).toBe('yesterday');
});
