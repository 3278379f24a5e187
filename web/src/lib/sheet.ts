import { newId } from './ids';

/** One page of a book while it is typed: texts, never what they mean. `new` is the field "new, from"; with `new-max` filled it is the lower end. */
export const columns = [
  'id',
  'what',
  'kind',
  'characteristic',
  'definition',
  'page',
  'step',
  'grade',
  'new',
  'new-min',
  'new-max',
  'wear',
  'per',
  'standard',
  'fit',
  'stages',
  'sequence',
  'quantity',
  'once',
  'from',
  'choose',
  'note',
] as const;
export type Column = (typeof columns)[number];
/** Those that are fields of a row; the others are chosen, or made of them. */
export type Typeable = Exclude<Column, 'characteristic' | 'new-min'>;
export type Cells = Readonly<Partial<Record<Column, string>>>;

export interface SheetRow {
  /** Of the draft; it stays whatever the row is called. */
  readonly id: string;
  readonly cells: Cells;
}
export interface Decision {
  readonly rule: string;
  readonly row: string;
  readonly field: string;
  readonly printed: string;
  readonly decided: 'as-printed' | 'put-right' | 'ask';
  readonly to?: string;
  readonly who: string;
  readonly when: string;
}
/** Somebody has compared the row with the book as it then stood. */
export interface Tick {
  readonly who: string;
  readonly row: string;
}
export type PageUnit = 'mm' | 'in' | 'both';
export interface BookPage {
  readonly id: string;
  readonly book: string;
  readonly edition: string;
  readonly page: string;
  readonly original: 'mm' | 'in' | null;
  readonly unit: PageUnit | null;
  readonly rows: readonly SheetRow[];
  readonly decisions: readonly Decision[];
  /** By row. */
  readonly ticks: Readonly<Record<string, Tick>>;
  /** As it was last entered into the engine: under which id, and what was asked of the server then. */
  readonly sent: { readonly sheet: string; readonly asked: string } | null;
  /** Of the photo, kept in the job. */
  readonly photo: string | null;
  /** When something was last typed, to tell which of two keepings is the later. */
  readonly at: number;
}

export const newRow = (): SheetRow => ({ id: `r${newId().slice(0, 8)}`, cells: {} });

/** The book stays from page to page; its unit does not: every page is asked for its own. */
export function newPage(above: Pick<BookPage, 'book' | 'edition' | 'original'> | null, now: number): BookPage {
  return {
    id: `p${newId().slice(0, 8)}`,
    book: above?.book ?? '',
    edition: above?.edition ?? '',
    page: '',
    original: above?.original ?? null,
    unit: null,
    rows: [newRow()],
    decisions: [],
    ticks: {},
    sent: null,
    photo: null,
    at: now,
  };
}

/** Nothing that anybody would miss. */
export const isBlank = (row: SheetRow): boolean => Object.values(row.cells).every((text) => text.trim() === '');

export function withCell(page: BookPage, row: string, column: Column, text: string): BookPage {
  return {
    ...page,
    rows: page.rows.map((each) => (each.id === row ? { ...each, cells: { ...each.cells, [column]: text } } : each)),
  };
}
export function withoutRow(page: BookPage, row: string): BookPage {
  const rows = page.rows.filter((each) => each.id !== row);
  return { ...page, rows: rows.length === 0 ? [newRow()] : rows };
}
/** `at`: before which row; none: at the end. */
export function withRow(page: BookPage, row: SheetRow, at = page.rows.length): BookPage {
  return { ...page, rows: [...page.rows.slice(0, at), row, ...page.rows.slice(at)] };
}
/** The last word on a finding counts; an earlier one about the same is taken out. */
export function withDecision(page: BookPage, decision: Decision): BookPage {
  const same = (each: Decision): boolean =>
    each.rule === decision.rule &&
    each.row === decision.row &&
    each.field === decision.field &&
    each.printed === decision.printed;
  return { ...page, decisions: [...page.decisions.filter((each) => !same(each)), decision] };
}
export const withoutDecision = (page: BookPage, at: number): BookPage => ({
  ...page,
  decisions: page.decisions.filter((_each, index) => index !== at),
});

/** What a tick was given to: all texts of the row that are in the book. */
export const asTicked = (page: BookPage, row: SheetRow): string =>
  JSON.stringify([page.unit, ...columns.map((column) => row.cells[column] ?? '')]);
export const isTicked = (page: BookPage, row: SheetRow): boolean => page.ticks[row.id]?.row === asTicked(page, row);

/** As the server is asked: blank texts are left out. */
export interface SheetDraft {
  readonly book: string;
  readonly edition: string;
  readonly page: string;
  readonly original?: 'mm' | 'in';
  readonly unit?: PageUnit;
  readonly rows: readonly { readonly id: string; readonly cells: Cells }[];
  readonly decisions: readonly Decision[];
}
export function draftOf(page: BookPage): SheetDraft {
  return {
    book: page.book,
    edition: page.edition,
    page: page.page,
    ...(page.original === null ? {} : { original: page.original }),
    ...(page.unit === null ? {} : { unit: page.unit }),
    rows: page.rows.map((row) => ({ id: row.id, cells: sentCells(row.cells) })),
    decisions: page.decisions,
  };
}
function sentCells(cells: Cells): Cells {
  const out: Partial<Record<Column, string>> = {};
  const range = (cells['new-max'] ?? '').trim() !== '';
  for (const column of columns) {
    const text = cells[column];
    if (text === undefined || text.trim() === '') continue;
    out[column === 'new' && range ? 'new-min' : column] = text;
  }
  return out;
}

/** The field of the page in which a column, or a figure that the proof names, was typed. */
export function fieldOf(name: string, cells: Cells): Column {
  if (name === 'new-min' || name === 'new-from') return 'new';
  if (name === 'new-to') return (cells['new-max'] ?? '').trim() === '' ? 'new' : 'new-max';
  return columns.find((each) => each === name) ?? 'note';
}

/** A page as it was kept in this browser; null where it is none. */
export function pageFrom(kept: unknown): BookPage | null {
  if (typeof kept !== 'object' || kept === null || !('id' in kept) || !('rows' in kept)) return null;
  return { ...newPage(null, 0), ...(kept as Partial<BookPage>) };
}
