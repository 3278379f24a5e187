import type { RoundGauge, RoundReply, RoundUnit } from '../generated/wire';

export type Unit = RoundUnit;

/** The page as a place has it: what it is read with, under which setting, in which round. A part may need several gauges. */
export function inHand(page: RoundReply | null, place: { readonly hand: number | null } | null): RoundReply | null {
  if (page === null || place === null) return page;
  const hand = page.hands[place.hand ?? -1];
  return hand === undefined ? { ...page, gauge: null, setting: null, closed: false } : { ...page, ...hand };
}

/** The unit of a figure that has none of its own: as chosen here, else as the server knows; null: nobody has said it. */
export function unitOf(gauge: RoundGauge, chosen: string | null): Unit | null {
  if (chosen === '') return null;
  return gauge.units.find((each) => each === chosen) ?? gauge.unit;
}
