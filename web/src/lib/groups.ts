/** How many of a kind an engine of so many cylinders usually has. A proposal that stands beside keys to change it; nothing rests on it. */
const perCylinder = new Set(['cylinder-bore', 'piston', 'crankpin', 'combustion-chamber']);

export function usualCount(kind: string, cylinders: number): number {
  if (kind === 'main-journal') return cylinders + 1;
  return perCylinder.has(kind) ? cylinders : 1;
}

/** What is known of the engine's ends; a member that is not there is not known. */
export interface EngineSides {
  readonly number_one_end?: string;
  readonly turns?: 'clockwise' | 'anticlockwise';
  readonly seen_from?: string;
  readonly thrust_side?: string;
}

/** Answers to the questions about an engine; what is not in it has its usual answer. */
export type Given = Readonly<Record<string, string>>;
