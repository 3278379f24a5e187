import { Hand } from './hand';
import type { Program } from './program';
import { act, limit } from './shop';

/** The limits of the invented Linnet 4 as the acceptance script has them. */
export function limitsOf(program: Program, job: string): Promise<void> {
  return act(program, job, [
    limit('bore-low', 'size-3', 'new', 'at-least', '78.000 mm'),
    limit('bore-high', 'size-1', 'new', 'at-most', '78.020 mm'),
    limit('bore-service', 'size-1', 'service', 'at-most', '78.100 mm'),
    limit('bore-oor', 'oor-1', 'service', 'at-most', '0.040 mm'),
    limit('bore-taper', 'tap-2', 'service', 'at-most', '0.080 mm'),
  ]);
}

/** The engine through the page's own form, by fingers; the usual groups of four cylinders. */
export async function newEngine(hand: Hand, name: string): Promise<string> {
  const { page } = hand;
  await hand.choose('What is measured', 'Only the groups that I pick');
  await page.getByRole('group', { name: 'Cylinder bores' }).waitFor();
  await page.getByRole('textbox', { name: /^Name/ }).fill(name);
  await hand.choose('Number 1 is at the', 'pulley end');
  await hand.choose('The crankshaft turns', 'clockwise');
  await hand.choose('Thrust side of the bores', 'exhaust side');
  await hand.key('Keep the engine');
  await page.waitForURL(/#\/jobs\/[^/]+$/);
  return decodeURIComponent(page.url().split('/jobs/')[1] ?? '');
}

/** In the order the hand moves: down the thrust axis, turn the gauge, up the pin axis. Divisions anticlockwise. */
export const bores = {
  'bore-1': ['78', '34', '20', '14', '13', '17', '30', '66'],
  'bore-2': ['71', '31', '18', '12', '12', '16', '28', '60'],
  'bore-3': ['144', '61', '24', '13', '14', '20', '49', '88'],
  'bore-4': ['84', '37', '21', '15', '14', '18', '32', '70'],
} as const;
export const placeNames = [
  'TOP · thrust',
  'MIDDLE · thrust',
  'BOTTOM · thrust',
  'FOOT · thrust',
  'FOOT · pin',
  'BOTTOM · pin',
  'MIDDLE · pin',
  'TOP · pin',
] as const;
