/**
 * Whether a value has the shape of a schema. Knows the keywords that tools/schemas.mjs lets through and no other; an eighth of
 * the bytes that validators written out one by one would take, and no code made from text, which the page's rules forbid.
 */
export interface Schema {
  readonly type?: string | readonly string[];
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: boolean | Schema;
  readonly items?: Schema;
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly oneOf?: readonly Schema[];
  readonly anyOf?: readonly Schema[];
  readonly $ref?: string;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly minLength?: number;
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly pattern?: string;
}
export type Schemas = Readonly<Record<string, Schema>>;

function typeOf(value: unknown): string {
  if (value === null) return 'null';
  if (Array.isArray(value)) return 'array';
  if (typeof value === 'number') return Number.isInteger(value) ? 'integer' : 'number';
  return typeof value;
}

function hasType(value: unknown, wanted: string | readonly string[]): boolean {
  const is = typeOf(value);
  const any = typeof wanted === 'string' ? [wanted] : wanted;
  return any.includes(is) || (is === 'integer' && any.includes('number'));
}

/** Where and why it does not fit ("places/0/order: integer"), or null where it does. */
export function misfit(value: unknown, schema: Schema, all: Schemas, at = ''): string | null {
  if (schema.$ref !== undefined) {
    const target = all[schema.$ref.replace('#/$defs/', '')];
    return target === undefined ? `${at}: ${schema.$ref}` : misfit(value, target, all, at);
  }
  if (schema.type !== undefined && !hasType(value, schema.type)) return `${at}: ${String(schema.type)}`;
  if ('const' in schema && value !== schema.const) return `${at}: ${String(schema.const)}`;
  if (schema.enum !== undefined && !schema.enum.includes(value)) return `${at}: ${schema.enum.join(' ')}`;
  const choices = schema.oneOf ?? schema.anyOf;
  if (choices !== undefined) {
    const misfits = choices.map((choice) => misfit(value, choice, all, at));
    const fitting = misfits.filter((each) => each === null).length;
    if (fitting === 0) return misfits.join(' / ');
    if (schema.oneOf !== undefined && fitting > 1) return `${at}: more than one`;
  }
  if (typeof value === 'string') return textMisfit(value, schema, at);
  if (typeof value === 'number') return countMisfit(value, schema, at);
  if (Array.isArray(value)) return listMisfit(value, schema, all, at);
  if (typeof value === 'object' && value !== null)
    return membersMisfit(value as Record<string, unknown>, schema, all, at);
  return null;
}

function textMisfit(value: string, { minLength, pattern }: Schema, at: string): string | null {
  if (minLength !== undefined && value.length < minLength) return `${at}: too short`;
  if (pattern !== undefined && !new RegExp(pattern, 'u').test(value)) return `${at}: ${pattern}`;
  return null;
}

function countMisfit(value: number, { minimum, maximum }: Schema, at: string): string | null {
  if (minimum !== undefined && value < minimum) return `${at}: less than ${minimum}`;
  if (maximum !== undefined && value > maximum) return `${at}: more than ${maximum}`;
  return null;
}

function listMisfit(value: readonly unknown[], schema: Schema, all: Schemas, at: string): string | null {
  if (schema.minItems !== undefined && value.length < schema.minItems) return `${at}: too few`;
  if (schema.maxItems !== undefined && value.length > schema.maxItems) return `${at}: too many`;
  if (schema.items === undefined) return null;
  for (const [index, item] of value.entries()) {
    const found = misfit(item, schema.items, all, `${at}/${index}`);
    if (found !== null) return found;
  }
  return null;
}

function membersMisfit(value: Record<string, unknown>, schema: Schema, all: Schemas, at: string): string | null {
  for (const name of schema.required ?? []) {
    if (!Object.hasOwn(value, name)) return `${at}/${name}: missing`;
  }
  for (const [name, member] of Object.entries(value)) {
    const own = schema.properties;
    const known = own !== undefined && Object.hasOwn(own, name) ? own[name] : schema.additionalProperties;
    if (known === false) return `${at}/${name}: not known`;
    const found = typeof known === 'object' ? misfit(member, known, all, `${at}/${name}`) : null;
    if (found !== null) return found;
  }
  return null;
}
