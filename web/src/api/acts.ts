import type { Replies } from '../generated/wire';
import type { Unit } from '../lib/hand';
import type { SheetDraft } from '../lib/sheet';
import { asked, path, post, type Answer } from './http';

/** What stands in every act; id and the device's own count are given by the outbox. */
export interface Stamp {
  readonly id: string;
  readonly device: string;
  readonly sequence: number;
  readonly made_at: string;
  readonly who: string;
}
export type Flag = 'deposit' | 'damage' | 'mistake';

/** What was typed, never what it means. */
export interface ReadingBody {
  readonly act: 'reading';
  readonly part: string;
  readonly station: string;
  readonly direction: string;
  readonly text: string;
  /** Of a text that has none of its own. */
  readonly unit?: Unit;
  readonly setting: string;
  readonly round: string;
  readonly order: number;
  readonly repeat?: number;
  readonly flag?: Flag;
  readonly note?: string;
  readonly supersedes?: string;
  readonly why?: string;
  readonly read_by?: string;
  readonly temperature?: string;
}
export type ActBody =
  | ReadingBody
  | {
      readonly act: 'setting';
      readonly setting: string;
      readonly gauge: string;
      readonly master?: string;
      readonly wanted?: string;
      readonly set?: string;
      readonly zeros?: readonly string[];
      readonly master_temperature?: string;
      readonly part_temperature?: string;
      readonly locked_on?: string;
      readonly afresh_of?: string;
    }
  | {
      readonly act: 'gauge';
      readonly gauge: string;
      readonly preset: string;
      readonly division?: string;
      readonly turn?: string;
      readonly pressed_in?: 'clockwise' | 'anticlockwise';
      readonly reads?: string;
      readonly on_standard?: string;
      readonly marked?: string;
    }
  | {
      readonly act: 'zero';
      readonly setting: string;
      readonly round: string;
      readonly after_order: number;
      readonly shows: string;
      readonly closes?: boolean;
    }
  | { readonly act: 'temperatures'; readonly setting: string; readonly part?: string; readonly master?: string }
  | {
      readonly act: 'limit';
      readonly limit: string;
      readonly kind: string;
      readonly definition: string;
      readonly role: string;
      readonly side: string;
      readonly bound: string;
      readonly book?: string;
      readonly edition?: string;
      readonly page?: string;
      /** Id of a rule of thumb that is offered and accepted; then no book. */
      readonly thumb?: string;
    }
  | {
      readonly act: 'finding';
      readonly part: string;
      readonly what: string;
      readonly weight: string;
      readonly where?: string;
      readonly depth?: string;
      readonly sort?: string;
      readonly test?: string;
      readonly outcome?: 'found' | 'none-found';
      readonly station?: string;
      readonly direction?: string;
      readonly photo?: string;
    }
  | {
      readonly act: 'step-seen';
      readonly parts: readonly string[];
      readonly step: 'standard' | 'offset' | 'unknown';
      readonly offset?: string;
      readonly seen?: string;
    }
  | {
      readonly act: 'strip-step';
      readonly step: string;
      readonly answer: 'done' | 'not-wanted' | 'cannot';
      readonly note?: string;
    }
  | { readonly act: 'ready'; readonly parts: readonly string[]; readonly state: string }
  | {
      readonly act: 'take-verdict';
      readonly part: string;
      readonly limit?: string;
      readonly word: 'within' | 'beyond';
      readonly why?: string;
    }
  | { readonly act: 'sheet'; readonly sheet: string; readonly draft: SheetDraft; readonly why?: string }
  | { readonly act: 'withdraw'; readonly event: string; readonly why: string };
export type Act = Stamp & ActBody;

export function sendActs(job: string, acts: readonly Act[]): Answer<Replies['kept']> {
  return post('kept', path`/api/jobs/${job}/acts`, { acts });
}

/** What a text would mean. Keeps nothing. `second`: who reads a second time, and is told nothing of the first. */
export function understood(job: string, reading: ReadingBody, second: string | null): Answer<Replies['understood']> {
  const { act: _act, ...body } = reading;
  return post(
    'understood',
    path`/api/jobs/${job}/understood` + asked({ second: second === null ? null : '1', who: second }),
    body,
  );
}
