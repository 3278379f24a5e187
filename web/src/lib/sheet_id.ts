import { draftOf, newPage, newRow, type BookPage, type SheetDraft } from './sheet';

const plain = (text: string, most: number): string =>
  text
    .normalize('NFD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, most);

/** The id of the page as a sheet of the engine: it begins the ids of its limits. Two pages never have one id, whatever they are called. */
export const sheetId = (page: BookPage): string =>
  page.sent?.sheet ??
  [plain(page.book, 20), plain(page.page, 8), page.id.slice(1, 5)].filter((each) => each !== '').join('-');

/** A sheet of the engine, to be typed on here. */
export function pageOfSheet(sheet: string, draft: SheetDraft, now: number): BookPage {
  const page: BookPage = {
    ...newPage(null, now),
    book: draft.book,
    edition: draft.edition,
    page: draft.page,
    original: draft.original ?? null,
    unit: draft.unit ?? null,
    rows: draft.rows.length === 0 ? [newRow()] : draft.rows.map((row) => ({ id: row.id, cells: row.cells })),
    decisions: draft.decisions,
  };
  return { ...page, sent: { sheet, asked: JSON.stringify(draftOf(page)) } };
}
