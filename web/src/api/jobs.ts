import type { Replies } from '../generated/wire';
import { asked, get, path, post, postFile, type Answer } from './http';

export interface NewEngine {
  readonly id: string;
  readonly device: string;
  readonly sequence: number;
  readonly made_at: string;
  readonly who: string;
  readonly name: string;
  readonly engine: string;
  readonly shown_unit: 'mm' | 'in';
  readonly decimal_mark: 'point' | 'comma' | null;
  readonly groups: readonly { readonly kind: string; readonly count: number }[];
  readonly number_one_end?: string;
  readonly turns?: string;
  readonly seen_from?: string;
  readonly thrust_side?: string;
  readonly answers?: readonly { readonly question: string; readonly answer: string }[];
  readonly left_out?: readonly string[];
}

export const bench = (): Answer<Replies['bench']> => get('bench', '/api/bench');
export const kinds = (): Answer<Replies['kind-list']> => get('kind-list', '/api/kinds');
export const engine = (job: string): Answer<Replies['engine']> => get('engine', path`/api/jobs/${job}`);
/** What is asked about a new engine, and what follows from the answers so far. */
export const enginePlan = (answers: Readonly<Record<string, string>>): Answer<Replies['engine-plan']> =>
  get(
    'engine-plan',
    '/api/engine-plan' +
      asked({
        answers: Object.entries(answers)
          .map(([question, answer]) => `${question}:${answer}`)
          .join(','),
      }),
  );
/** Taking the engine apart, step by step. */
export const strip = (job: string): Answer<Replies['strip']> => get('strip', path`/api/jobs/${job}/strip`);
export const newEngine = (body: NewEngine): Answer<Replies['new-engine']> => post('new-engine', '/api/jobs', body);
/** Takes the built-in invented engine in. */
export const takeExample = (): Answer<Replies['new-engine']> => post('new-engine', '/api/example', undefined);
export const verdicts = (job: string): Answer<Replies['verdict-page']> =>
  get('verdict-page', path`/api/jobs/${job}/verdicts`);
/** Rules of thumb where the job has no limit; none counts until it is accepted. */
export const thumbOffers = (job: string): Answer<Replies['thumb-offers']> =>
  get('thumb-offers', path`/api/jobs/${job}/thumb`);
export const actsDone = (job: string): Answer<Replies['acts-done']> => get('acts-done', path`/api/jobs/${job}/events`);

export const keepFile = (
  job: string,
  photo: Blob,
  about: { part: string; name: string; note: string },
): Answer<Replies['file']> => postFile('file', path`/api/jobs/${job}/files` + asked(about), photo);
export const thumbnail = (job: string, hash: string): string => path`/api/jobs/${job}/files/${hash}/thumbnail`;
