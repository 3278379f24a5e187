import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { texts } from '../src/generated/texts';

const folder = join(import.meta.dirname, '../src');
const source = readdirSync(folder, { recursive: true, encoding: 'utf8' })
  .filter((name) => /\.(?:ts|svelte)$/.test(name) && !name.startsWith('generated'))
  .map((name) => readFileSync(join(folder, name), 'utf8'))
  .join('\n');

/** "judged.${state}": whatever one word may stand there. */
const patterns = [...source.matchAll(/\bt\(\s*`([^`]*)`/g)].map(
  ([, key = '']) =>
    new RegExp(
      `^${key
        .split(/\$\{[^}]*\}/)
        .map((piece) => piece.replaceAll('.', '\\.'))
        .join('[^.]+')}$`,
    ),
);
const used = (key: string): boolean => source.includes(`'${key}'`) || patterns.some((each) => each.test(key));

test('every sentence of the page is said somewhere', () => {
  expect(patterns.length).toBeGreaterThan(5);
  expect(Object.keys(texts.en).filter((key) => !used(key))).toEqual([]);
});
