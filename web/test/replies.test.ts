import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { validated } from '../src/api/http';
import { schemas } from '../src/generated/schemas';
import type { Replies } from '../src/generated/wire';
import { misfit, type Schemas } from '../src/lib/schema';

/** Replies that the server really gave, recorded by its own tests. */
const folder = join(process.env['FETTLE_SOURCE_DIR'] ?? join(import.meta.dirname, '../..'), 'tests/http/replies');
const names = readdirSync(folder).filter((name) => name.endsWith('.json'));
const shapeOf = (format: string): keyof Replies => format.replace(/^fettle-/, '') as keyof Replies;
const read = (name: string): Record<string, unknown> =>
  JSON.parse(readFileSync(join(folder, name), 'utf8')) as Record<string, unknown>;

test('every recorded reply is believed', () => {
  expect(names.length).toBeGreaterThan(40);
  for (const name of names) {
    const reply = read(name);
    const answer = validated(shapeOf(String(reply['format'])), reply);
    expect(answer, name).toMatchObject({ ok: true });
  }
});

test('a reply that lacks a member, has one too many or a wrong one is not', () => {
  for (const name of names) {
    const reply = read(name);
    const shape = shapeOf(String(reply['format']));
    for (const member of Object.keys(reply)) {
      const { [member]: gone, ...rest } = reply;
      const required = (schemas[shape] as { required: string[] }).required.includes(member);
      expect(validated(shape, rest).ok, `${name} without ${member}`).toBe(!required);
      expect(validated(shape, { ...rest, [member]: { odd: gone } }).ok, `${name} with another ${member}`).toBe(false);
    }
    expect(validated(shape, { ...reply, more: 1 }).ok, name).toBe(false);
  }
});

test('the keywords that schemas use, one by one', () => {
  const all: Schemas = { count: { type: 'integer', minimum: 1, maximum: 3 } };
  const fits = (value: unknown, schema: Parameters<typeof misfit>[1]): boolean => misfit(value, schema, all) === null;
  expect(fits(2, { $ref: '#/$defs/count' })).toBe(true);
  expect(fits(4, { $ref: '#/$defs/count' })).toBe(false);
  expect(fits(2.5, { $ref: '#/$defs/count' })).toBe(false);
  expect(fits(2, { $ref: '#/$defs/none' })).toBe(false);
  expect(fits(2, { type: 'number' })).toBe(true);
  expect(fits(null, { type: ['string', 'null'] })).toBe(true);
  expect(fits([], { type: 'object' })).toBe(false);
  expect(fits('ab', { minLength: 3 })).toBe(false);
  expect(fits('ab', { pattern: '^a' })).toBe(true);
  expect(fits('ba', { pattern: '^a' })).toBe(false);
  expect(fits('b', { enum: ['a', 'b'] })).toBe(true);
  expect(fits('c', { enum: ['a', 'b'] })).toBe(false);
  expect(fits(1, { oneOf: [{ type: 'number' }, { type: 'integer' }] })).toBe(false);
  expect(fits(1, { anyOf: [{ type: 'number' }, { type: 'integer' }] })).toBe(true);
  expect(fits([1], { items: { type: 'string' } })).toBe(false);
  expect(fits([1], { minItems: 2 })).toBe(false);
  expect(fits([1, 2], { maxItems: 1 })).toBe(false);
  expect(fits({ toString: 1 }, { properties: {}, additionalProperties: false })).toBe(false);
  expect(fits({ a: 1 }, { additionalProperties: { type: 'string' } })).toBe(false);
});
