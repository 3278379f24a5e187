import { expect, test } from 'vitest';
import { filled, languageOf } from '../src/lib/language';
import { texts } from '../src/generated/texts';

test('the first language that we speak', () => {
  expect(languageOf(['fr-FR', 'de-AT', 'en'])).toBe('de');
  expect(languageOf(['fr'])).toBe('en');
});

test('arguments are filled in, and a number chooses its form', () => {
  expect(filled('{n} {n|line|lines} of {who}', { n: 1, who: 'JB' })).toBe('1 line of JB');
  expect(filled('{n} {n|line|lines}', { n: 2 })).toBe('2 lines');
  expect(filled('nothing', null)).toBe('nothing');
});

test('no sentence leaves a bracket behind', () => {
  const all = new Proxy({}, { get: () => 1, has: () => true }) as Record<string, number>;
  for (const table of [texts.en, texts.de])
    for (const pattern of Object.values(table)) expect(filled(pattern, all)).not.toMatch(/[{}]/);
});
