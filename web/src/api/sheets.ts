import type { Replies } from '../generated/wire';
import type { SheetDraft } from '../lib/sheet';
import { get, path, post, type Answer } from './http';

/** What is understood of a page as far as it is typed, and what its proof finds. Keeps nothing. */
export const proofOf = (draft: SheetDraft): Answer<Replies['sheet-draft-proof']> =>
  post('sheet-draft-proof', '/api/sheet-proof', draft);

export const definitionsOf = (kind: string): Answer<Replies['definition-list']> =>
  get('definition-list', path`/api/kinds/${kind}/definitions`);
/** What a version of a sheet would do, before it is kept. Keeps nothing. */
export const effectOf = (job: string, sheet: string, draft: SheetDraft): Answer<Replies['sheet-effect']> =>
  post('sheet-effect', path`/api/jobs/${job}/sheet-effect`, { sheet, draft });
export const sheetsOf = (job: string): Answer<Replies['sheets']> => get('sheets', path`/api/jobs/${job}/sheets`);
export const photoOf = (job: string, hash: string): string => path`/api/jobs/${job}/files/${hash}`;
