import { expect, test } from 'vitest';
import { asTyped, withKey, withoutLast } from '../src/lib/decimal';

test('a needle place carries its side; zero has none; what names its side or sign itself stays', () => {
  expect(asTyped('71', 'anticlockwise')).toBe('71 ↺');
  expect(asTyped('5½', 'clockwise')).toBe('5½ ↻');
  expect(asTyped('0', 'clockwise')).toBe('0');
  expect(asTyped('78.069', null)).toBe('78.069');
  expect(asTyped('seventy one', 'clockwise')).toBe('seventy one');
  expect(asTyped('-4', 'clockwise')).toBe('-4');
  expect(asTyped('31 acw', 'clockwise')).toBe('31 acw');
});

test('keys add to the text; one mark, one half, and no more than a gauge shows', () => {
  expect(withKey('78', '.')).toBe('78.');
  expect(withKey('78.', '.')).toBe('78.');
  expect(withKey('78,0', '.')).toBe('78,0');
  expect(withKey('5', '½')).toBe('5½');
  expect(withKey('5½', '1')).toBe('5½');
  expect(withKey('123456789012', '3')).toBe('123456789012');
  expect(withoutLast('71')).toBe('7');
});
