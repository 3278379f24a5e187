import { randomBytes } from 'node:crypto';
import type { Program } from './program';

/** The invented engine Linnet 4, made through HTTP as a page would make it: two bores and a bore gauge set at 78.000 mm. */
let sequence = 0;

export function head(): Record<string, unknown> {
  sequence += 1;
  return {
    id: randomBytes(16).toString('hex'),
    device: 'd-test',
    sequence,
    made_at: '2031-05-04T10:12:05+02:00',
    who: 'JB',
  };
}

interface Kept {
  readonly acts: readonly { readonly kept: boolean; readonly problems?: readonly { readonly what: string }[] }[];
}

export async function act(program: Program, job: string, bodies: readonly Record<string, unknown>[]): Promise<void> {
  const reply = (await program.post(`api/jobs/${job}/acts`, {
    acts: bodies.map((body) => ({ ...head(), ...body })),
  })) as Kept;
  for (const each of reply.acts) if (!each.kept) throw new Error(JSON.stringify(each.problems));
}

export const limit = (
  id: string,
  definition: string,
  role: string,
  side: string,
  bound: string,
): Record<string, unknown> => ({
  act: 'limit',
  limit: id,
  kind: 'cylinder-bore',
  definition,
  role,
  side,
  bound,
  book: 'Linnet notes (invented)',
  edition: 'first',
  page: '14',
});

/** Bore gauge G2 set at 78 mm on an inch micrometer that shows 0.0001 in too much. */
export const setOnMicrometer = (zeros: readonly string[]): Record<string, unknown>[] => [
  {
    act: 'gauge',
    gauge: 'mic-in',
    preset: 'outside-micrometer-3-4-in',
    reads: '3.0001 in',
    on_standard: '3.0000 in',
  },
  { act: 'gauge', gauge: 'G2', preset: 'dial-bore-gauge-0-001-mm', turn: '0.2 mm', pressed_in: 'clockwise' },
  {
    act: 'setting',
    setting: 'G2-1',
    gauge: 'G2',
    master: 'mic-in',
    wanted: '78.000 mm',
    set: '3.0709 in',
    zeros,
  },
];

export async function linnet(program: Program, bores = 2): Promise<string> {
  const made = (await program.post('api/jobs', {
    ...head(),
    name: 'Linnet 4',
    engine: 'four-cylinder petrol, invented',
    shown_unit: 'mm',
    decimal_mark: 'point',
    groups: [{ kind: 'cylinder-bore', count: bores }],
    number_one_end: 'pulley end',
    turns: 'clockwise',
    seen_from: 'pulley end',
    thrust_side: 'exhaust side',
  })) as { job: string };
  await act(program, made.job, [
    limit('bore-low', 'size-3', 'new', 'at-least', '78.000 mm'),
    limit('bore-high', 'size-1', 'new', 'at-most', '78.020 mm'),
    limit('bore-service', 'size-1', 'service', 'at-most', '78.100 mm'),
    ...setOnMicrometer(['0', '1 acw', '0']),
  ]);
  return made.job;
}

export interface ReadPlace {
  readonly station: string;
  readonly direction: string;
  readonly state: string;
  readonly readings: readonly {
    readonly event: string;
    readonly text: string;
    readonly flag: string | null;
    readonly who: string;
  }[];
}
export async function places(program: Program, job: string, part: string): Promise<readonly ReadPlace[]> {
  return ((await program.get(`api/jobs/${job}/rounds/${part}`)) as { places: readonly ReadPlace[] }).places;
}
