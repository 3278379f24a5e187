import type { Side } from './decimal';

/** Where a needle stood when the zero was found: digits as typed and the side. Counts of divisions, never a size. */
export interface NeedlePlace {
  readonly text: string;
  readonly side: Side;
}

/** In half divisions, anticlockwise below nothing; null where the text is no plain count of divisions. */
function halves({ text, side }: NeedlePlace): number | null {
  const found = /^(\d{0,4})(½?)$/.exec(text.trim());
  if (found === null || text.trim() === '') return null;
  const [, whole = '', half = ''] = found;
  const count = 2 * (whole === '' ? 0 : Number.parseInt(whole, 10)) + (half === '' ? 0 : 1);
  return side === 'clockwise' ? count : -count;
}

/** Whether all lie within so many divisions of each other; true where one cannot be counted: the server says then what is wrong. */
export function agree(places: readonly NeedlePlace[], divisions: number): boolean {
  const counts = places.map(halves);
  const known = counts.filter((count) => count !== null);
  if (known.length !== counts.length || known.length === 0) return true;
  return Math.max(...known) - Math.min(...known) <= 2 * divisions;
}
