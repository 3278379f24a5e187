// src/wire/schemas -> src/generated/wire.ts (types, by json-schema-to-typescript) and src/generated/schemas.ts (the same as
// data for src/lib/schema.ts). A keyword that schema.ts does not know stops the build: nothing passes unchecked.
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { compile } from 'json-schema-to-typescript';

const here = dirname(fileURLToPath(import.meta.url));
const root = process.env.FETTLE_SOURCE_DIR ?? join(here, '..', '..');
const folder = join(root, 'src/wire/schemas');

/** What the server sends to the page, docs/HTTP.md. */
const replies = [
  'hello',
  'bench',
  'kind-list',
  'new-engine',
  'engine',
  'gauge-page',
  'setting-page',
  'proof',
  'round',
  'verdict-page',
  'acts-done',
  'thumb-offers',
  'file',
  'live-line',
  'present',
  'ports',
  'pairing',
  'paired',
  'devices',
  'refusal',
  'kept',
  'understood',
  'sheet-draft-proof',
  'definition-list',
  'sheets',
  'sheet-effect',
  'strip',
  'next',
  'engine-plan',
];
const words = new Set([
  'type',
  'properties',
  'required',
  'additionalProperties',
  'items',
  'const',
  'enum',
  'oneOf',
  'anyOf',
  '$ref',
  'minimum',
  'maximum',
  'minLength',
  'minItems',
  'maxItems',
  'pattern',
]);
const dropped = new Set(['$schema', '$id', 'title', 'description', '$defs']);
const defs = {};

const nameOf = (file, def) => (def === undefined ? file : `${file}_${def}`);

const pathOf = (file) => join(folder, `${file}.schema.json`);

function take(file) {
  if (defs[file] !== undefined) return;
  const schema = JSON.parse(readFileSync(pathOf(file), 'utf8'));
  defs[file] = true; // being read: schemas may refer to each other
  defs[file] = cleaned(schema, file);
  for (const [name, part] of Object.entries(schema.$defs ?? {})) defs[nameOf(file, name)] = cleaned(part, file);
}

function reference(ref, file) {
  const [other, inside] = ref.split('#');
  const target = other === '' ? file : other.replace(/^.*\//, '').replace('.schema.json', '');
  if (other !== '') take(target);
  return { $ref: `#/$defs/${nameOf(target, inside?.replace('/$defs/', '') || undefined)}` };
}

function cleaned(schema, file) {
  if (typeof schema === 'boolean') return schema;
  if (schema.$ref !== undefined) return reference(schema.$ref, file);
  const out = {};
  for (const [word, value] of Object.entries(schema)) {
    if (dropped.has(word)) continue;
    if (!words.has(word)) throw new Error(`${file}.schema.json: src/lib/schema.ts does not know "${word}"`);
    if (word === 'properties') {
      out[word] = Object.fromEntries(Object.entries(value).map(([name, part]) => [name, cleaned(part, file)]));
    } else if (word === 'items' || (word === 'additionalProperties' && typeof value === 'object')) {
      out[word] = cleaned(value, file);
    } else if (word === 'oneOf' || word === 'anyOf') {
      out[word] = value.map((part) => cleaned(part, file));
    } else {
      out[word] = value;
    }
  }
  return out;
}

for (const reply of replies) {
  if (!existsSync(pathOf(reply))) throw new Error(`no schema for ${reply}`);
  take(reply);
}
const typeName = (key) =>
  key
    .split(/[-_]/)
    .map((word) => word[0].toUpperCase() + word.slice(1))
    .join('');
// "File" and others are names of the browser's own.
const taken = (key) => `${typeName(key)}Reply`;
const named = (key) => (replies.includes(key) ? taken(key) : typeName(key));
const renamed = JSON.parse(JSON.stringify(defs), (word, value) =>
  word === '$ref' ? value.replace(/#\/\$defs\/(.*)/, (_, key) => `#/$defs/${named(key)}`) : value,
);
const types = await compile(
  {
    title: 'Everything',
    type: 'object',
    additionalProperties: false,
    properties: {},
    $defs: Object.fromEntries(Object.entries(renamed).map(([key, part]) => [named(key), part])),
  },
  'Everything',
  { unreachableDefinitions: true, bannerComment: '', additionalProperties: false, format: false, maxItems: -1 },
);
const out = join(here, '../src/generated');
mkdirSync(out, { recursive: true });
const about = '// Written by tools/schemas.mjs from src/wire/schemas; not edited by hand.\n';
writeFileSync(
  join(out, 'wire.ts'),
  `${about}${types.replace(/^ \* (This interface was|via the `).*\n/gm, '')}\nexport interface Replies {\n${replies.map((reply) => `  '${reply}': ${taken(reply)};`).join('\n')}\n}\n`,
);
writeFileSync(
  join(out, 'schemas.ts'),
  `${about}export const schemas: Record<string, unknown> = ${JSON.stringify(defs)};\n`,
);
