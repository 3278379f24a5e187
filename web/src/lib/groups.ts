/** How many of a kind an engine of so many cylinders usually has. A proposal that stands beside keys to change it; nothing rests on it. */
const perCylinder = new Set(['cylinder-bore', 'piston', 'crankpin', 'combustion-chamber']);

export function usualCount(kind: string, cylinders: number): number {
  if (kind === 'main-journal') return cylinders + 1;
  return perCylinder.has(kind) ? cylinders : 1;
}
