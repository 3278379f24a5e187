import { pageFrom, type BookPage } from '../../lib/sheet';
import { keepPage, keptPage } from '../acts.svelte';
import { remembered } from '../remembered';

/** Half-typed pages of a job in this browser: its small store at every key, its database a moment later. The later of the two counts. */
const prefix = (job: string): string => `sheet.${job}.`;
const ids = (job: string): string => `sheets.${job}`;

/** False: the browser's store is full or forbidden. */
function put(key: string, text: string): boolean {
  try {
    localStorage.setItem(`fettle.${key}`, text);
    return true;
  } catch {
    return false;
  }
}

function idsOf(job: string): readonly string[] {
  try {
    const kept: unknown = JSON.parse(remembered(ids(job)) ?? '[]');
    return Array.isArray(kept) ? kept.filter((each): each is string => typeof each === 'string') : [];
  } catch {
    return [];
  }
}

function small(job: string, id: string): BookPage | null {
  try {
    return pageFrom(JSON.parse(remembered(prefix(job) + id) ?? 'null'));
  } catch {
    return null;
  }
}

/** Says whether this browser has it now. */
export function keep(job: string, page: BookPage): boolean {
  const all = idsOf(job);
  const listed = all.includes(page.id) || put(ids(job), JSON.stringify([...all, page.id]));
  return put(prefix(job) + page.id, JSON.stringify(page)) && listed;
}
export const keepForGood = (job: string, page: BookPage): Promise<void> => keepPage(prefix(job) + page.id, page);

export function forget(job: string, id: string): void {
  put(ids(job), JSON.stringify(idsOf(job).filter((each) => each !== id)));
  try {
    localStorage.removeItem(`fettle.${prefix(job)}${id}`);
  } catch {
    // Nothing was kept either.
  }
  void keepPage(prefix(job) + id, null);
}

/** In the order in which they were begun. */
export const keptPages = (job: string): readonly BookPage[] =>
  idsOf(job).flatMap((id) => {
    const page = small(job, id);
    return page === null ? [] : [page];
  });

export async function keptOne(job: string, id: string): Promise<BookPage | null> {
  const here = small(job, id);
  const there = pageFrom(await keptPage(prefix(job) + id));
  if (here === null || there === null) return here ?? there;
  return there.at > here.at ? there : here;
}
