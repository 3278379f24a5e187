// src/text/<language>/page.txt -> src/generated/texts.ts: the page's sentences, with keys and arguments that the compiler knows.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const root = process.env.FETTLE_SOURCE_DIR ?? join(here, '..', '..');
const prefix = 'page.';

/** The same rules as src/text/text_file.h. */
function read(language) {
  const name = join(root, 'src/text', language, 'page.txt');
  const table = new Map();
  for (const raw of readFileSync(name, 'utf8').split('\n')) {
    const line = raw.trim();
    if (line === '' || line.startsWith('#')) continue;
    const equals = line.indexOf('=');
    const key = line.slice(0, equals).trim();
    const sentence = line.slice(equals + 1).trim();
    if (equals < 0 || !key.startsWith(prefix) || sentence === '') throw new Error(`${name}: ${line}`);
    if (table.has(key)) throw new Error(`${name}: given twice: ${key}`);
    table.set(key.slice(prefix.length), sentence.replaceAll('\\n', '\n'));
  }
  return table;
}

/** {name} -> name: string; {n|one|other} -> n: number. */
function argumentsOf(sentence) {
  const found = new Map();
  for (const [, inside] of sentence.matchAll(/\{([^{}]*)\}/g)) {
    const [name, ...forms] = inside.split('|');
    if (!/^[a-z_]+$/.test(name)) throw new Error(`no argument: {${inside}}`);
    if (forms.length > 0 || !found.has(name)) found.set(name, forms.length > 0 ? 'number' : 'string | number');
  }
  return found;
}

function typeOf(sentence) {
  const found = [...argumentsOf(sentence)];
  return found.length === 0 ? 'null' : `{ ${found.map(([name, type]) => `${name}: ${type}`).join('; ')} }`;
}

const english = read('en');
const german = read('de');
for (const key of new Set([...english.keys(), ...german.keys()])) {
  if (!english.has(key) || !german.has(key)) throw new Error(`page.${key} is missing in one language`);
  const names = (table) => [...argumentsOf(table.get(key)).keys()].sort().join(' ');
  if (names(english) !== names(german)) throw new Error(`page.${key} has other arguments in the other language`);
}
const quoted = (table) => JSON.stringify(Object.fromEntries(table), null, 2);
const out = `// Written by tools/texts.mjs from src/text/{en,de}/page.txt; not edited by hand.
export interface TextArguments {
${[...english].map(([key, sentence]) => `  '${key}': ${typeOf(sentence)};`).join('\n')}
}
export const texts: Record<'en' | 'de', Record<keyof TextArguments, string>> = {
  en: ${quoted(english)},
  de: ${quoted(german)},
};
`;
mkdirSync(join(here, '../src/generated'), { recursive: true });
writeFileSync(join(here, '../src/generated/texts.ts'), out);
