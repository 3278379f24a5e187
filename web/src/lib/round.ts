import type { RoundReading, RoundReply } from '../generated/wire';

/** A reading of this device that the server's page does not show yet. */
export interface OwnReading {
  readonly id: string;
  readonly place: string;
  readonly text: string;
  readonly said: string | null;
  readonly flag: RoundReading['flag'];
  readonly note: string;
  readonly who: string;
  readonly supersedes: string | null;
  readonly order: number;
  /** Being written here; durable here; the server has it. */
  readonly stage: 'writing' | 'here' | 'server';
}

export interface ShownReading {
  readonly event: string;
  readonly text: string;
  readonly said: string | null;
  readonly flag: RoundReading['flag'];
  readonly stage: OwnReading['stage'];
}

/** One place of the part, with what was read there, here and by others. */
export interface Place {
  /** "top/thrust": as drawings name it. */
  readonly key: string;
  readonly station: string;
  readonly direction: string;
  readonly name: string;
  readonly where: string;
  readonly wanted: number;
  readonly state: RoundReply['places'][number]['state'];
  readonly readings: readonly ShownReading[];
  /** Of the page's hands: what it is read with. */
  readonly hand: number | null;
  /** Sorts of gauges for it, where it has no hand. */
  readonly suits: readonly string[];
}

const counts = (reading: ShownReading): boolean => reading.flag === null;
const goodOf = (readings: readonly ShownReading[]): number => readings.filter(counts).length;

/** Everything set aside: read it again while the hand is there. */
const leftOutWholly = (place: Place): boolean => place.readings.length > 0 && goodOf(place.readings) === 0;

function stateOf(readings: readonly ShownReading[], wanted: number): Place['state'] {
  const good = goodOf(readings);
  if (good >= wanted) return 'read';
  if (good === 0) return readings.length > 0 ? 'asked-again' : 'to-do';
  return 'begun';
}

/** The server's places with this device's own readings laid over them, so that nobody waits for the server to go on. */
export function placesOf(page: RoundReply, own: readonly OwnReading[], takenBack: ReadonlySet<string>): Place[] {
  const gone = new Set<string | null>([...own.map((each) => each.supersedes), ...takenBack]);
  return page.places.map((place) => {
    const key = `${place.station}/${place.direction}`;
    const known = new Set(place.readings.map((reading) => reading.event));
    const added = own.filter((each) => each.place === key && !known.has(each.id) && !gone.has(each.id));
    const left = place.readings.filter((reading) => !gone.has(reading.event));
    const readings: ShownReading[] = [
      ...left.map(({ event, text, said, flag }) => ({ event, text, said, flag, stage: 'server' as const })),
      ...added.map(({ id, text, said, flag, stage }) => ({ event: id, text, said, flag, stage })),
    ];
    const same = added.length === 0 && left.length === place.readings.length;
    const { station, direction, name, where, wanted, hand, suits } = place;
    return {
      key,
      station,
      direction,
      name,
      where,
      wanted,
      hand,
      suits,
      readings,
      state: same ? place.state : stateOf(readings, wanted),
    };
  });
}

/**
 * In the order the hand moves: what is not read; then what is asked again. `passed`: places to come back to; `stood`: whose reading
 * stands, whatever is asked about it.
 */
export function nextPlace(
  places: readonly Place[],
  passed: ReadonlySet<string>,
  stood: ReadonlySet<string> = new Set(),
): Place | null {
  const open = (place: Place): boolean =>
    !passed.has(place.key) && (place.state === 'to-do' || place.state === 'begun' || leftOutWholly(place));
  const again = (place: Place): boolean =>
    place.state === 'asked-again' && !passed.has(place.key) && !stood.has(place.key);
  return places.find(open) ?? places.find(again) ?? null;
}

export const readPlaces = (places: readonly Place[]): number => places.filter((place) => place.state === 'read').length;

/** The side of the last reading: in a worn bore the needle nearly always stands there again. */
export function lastSide(page: RoundReply): 'clockwise' | 'anticlockwise' | null {
  for (const reading of page.places.flatMap((place) => place.readings).reverse()) {
    if (/↺|\bacw\b/.test(reading.text)) return 'anticlockwise';
    if (/↻|\bcw\b/.test(reading.text)) return 'clockwise';
  }
  return null;
}
