import type { Flag, ReadingBody } from '../../api/acts';
import { inHand } from '../../lib/hand';
import { newId } from '../../lib/ids';
import type { Place } from '../../lib/round';
import { act } from '../acts.svelte';
import { person } from '../person.svelte';
import type { RoundWork } from './round_work.svelte';

/** A stored reading that gets a flag or words. */
export interface SetAside {
  readonly place: Place;
  readonly event: string;
  readonly text: string;
  readonly flag: Flag | null;
  readonly note: string;
  readonly why: string;
}

export const readingOf = (
  { station, direction }: Place,
  rest: Omit<ReadingBody, 'act' | 'station' | 'direction'>,
): ReadingBody => ({
  act: 'reading',
  station,
  direction,
  ...rest,
});

/** Flag or words for a reading that is stored already: the same text again, which supersedes it. */
export async function setAside(work: RoundWork, { place, event, text, flag, note, why }: SetAside): Promise<void> {
  // As the place has it, which may not be the lit one.
  const page = inHand(work.whole, place);
  const unit = work.units.of(page);
  const { job, part, reader } = work.asks();
  if (page?.gauge == null || page.setting === null) return;
  const id = newId();
  const body = readingOf(place, {
    part,
    text,
    ...(unit === null ? {} : { unit }),
    setting: page.setting.id,
    round: page.round,
    order: work.own.nextOrder(page, page.setting.id),
    supersedes: event,
    why,
    ...(flag === null ? {} : { flag }),
    ...(note === '' ? {} : { note }),
    ...(reader === '' ? {} : { read_by: reader }),
  });
  work.own.begin(id, person.who, body);
  if (work.last?.event === event) work.last = { event: id, place, text };
  await act(job, body, id);
  work.own.written(id);
}
