import type { RoundReply } from '../../generated/wire';
import { remember, remembered } from '../../state/remembered';

/** After so many rounds without a question, the help does not come by itself any more. */
const enough = 3;
const key = (who: string, kind: string): string => `clean.${who}.${kind}`;

const clean = (who: string, kind: string): number => Number.parseInt(remembered(key(who, kind)) ?? '0', 10);
const seen = new Set<string>();

/** Whether how to measure is shown without being asked for: at the beginning of a part, for whoever is new to the kind. */
export function showHelpFirst(who: string, page: RoundReply): boolean {
  const here = `${who} ${page.part.id}`;
  const begun = page.places.some((place) => place.readings.length > 0);
  if (seen.has(here) || begun || page.how.length === 0) return false;
  seen.add(here);
  return clean(who, page.part.kind) < enough;
}

export function roundWasClean(who: string, kind: string): void {
  remember(key(who, kind), String(clean(who, kind) + 1));
}
