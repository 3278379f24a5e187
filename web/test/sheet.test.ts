import { beforeEach, expect, test, vi } from 'vitest';
import { pageOfSheet, sheetId } from '../src/lib/sheet_id';
import { aloudLines, figureAloud, firstToRead } from '../src/lib/aloud';
import {
  draftOf,
  fieldOf,
  isTicked,
  asTicked,
  newPage,
  newRow,
  pageFrom,
  withCell,
  withDecision,
  withoutDecision,
  withoutRow,
  withRow,
  type BookPage,
  type Decision,
} from '../src/lib/sheet';

const one = (cells: BookPage['rows'][number]['cells']): BookPage => ({
  ...newPage(null, 1),
  rows: [{ id: 'a', cells }],
});

test('what is sent is what was typed; blank texts are not, and "from" is the lower end once "to" is filled', () => {
  expect(draftOf(one({ what: ' Bore', new: '84.000', wear: '  ' })).rows[0]?.cells).toEqual({
    what: ' Bore',
    new: '84.000',
  });
  expect(draftOf(one({ new: '84.000', 'new-max': '84.020' })).rows[0]?.cells).toEqual({
    'new-min': '84.000',
    'new-max': '84.020',
  });
  const unsaid = draftOf(one({}));
  expect('unit' in unsaid || 'original' in unsaid).toBe(false);
  expect(draftOf({ ...one({}), unit: 'both', original: 'in' })).toMatchObject({ unit: 'both', original: 'in' });
});

test('what the server names finds its field', () => {
  expect(fieldOf('new-min', {})).toBe('new');
  expect(fieldOf('new-from', {})).toBe('new');
  expect(fieldOf('new-to', { new: '84.000-84.020' })).toBe('new');
  expect(fieldOf('new-to', { new: '84.000', 'new-max': '84.020' })).toBe('new-max');
  expect(fieldOf('wear', {})).toBe('wear');
});

test('the book stays from page to page, the unit is asked anew, nothing else is carried over', () => {
  const page = newPage({ ...one({}), book: 'B', edition: '2', original: 'mm', unit: 'mm' } as BookPage, 1);
  expect(page).toMatchObject({ book: 'B', edition: '2', original: 'mm', unit: null, page: '', decisions: [] });
  expect(page.rows.map((row) => row.cells)).toEqual([{}]);
});

test('rows come and go in their order; the last one that goes leaves an empty one', () => {
  const page = withRow(one({ what: 'A' }), { id: 'b', cells: {} }, 0);
  expect(page.rows.map((row) => row.id)).toEqual(['b', 'a']);
  expect(withoutRow(page, 'b').rows.map((row) => row.id)).toEqual(['a']);
  expect(withoutRow(withoutRow(page, 'b'), 'a').rows.map((row) => row.cells)).toEqual([{}]);
  expect(newRow().id).not.toBe(newRow().id);
});

test('the last word on a finding counts', () => {
  const said: Decision = {
    rule: 'series',
    row: 'a',
    field: 'wear',
    printed: '1 mm',
    decided: 'ask',
    who: 'JB',
    when: '2031-05-04',
  };
  const page = withDecision(withDecision(one({}), said), { ...said, decided: 'as-printed' });
  expect(page.decisions.map((each) => each.decided)).toEqual(['as-printed']);
  expect(withDecision(page, { ...said, printed: '2 mm' }).decisions).toHaveLength(2);
  expect(withoutDecision(page, 0).decisions).toEqual([]);
});

test('a tick is for the texts that were compared', () => {
  const page = one({ what: 'Bore', wear: '84.1' });
  const row = page.rows[0];
  if (row === undefined) throw new Error('a row');
  const ticked = { ...page, unit: 'mm' as const };
  const withTick = { ...ticked, ticks: { a: { who: 'JB', row: asTicked(ticked, row) } } };
  expect(isTicked(withTick, row)).toBe(true);
  const changed = withCell(withTick, 'a', 'wear', '84.2');
  expect(isTicked(changed, changed.rows[0] ?? row)).toBe(false);
  expect(isTicked({ ...withTick, unit: 'in' }, row)).toBe(false);
});

test('what was kept by an older page is filled up; what is no page is none', () => {
  expect(pageFrom({ id: 'p', rows: [] })).toMatchObject({ id: 'p', rows: [], ticks: {}, unit: null });
  for (const each of [null, 7, 'p', {}, { id: 'p' }]) expect(pageFrom(each)).toBeNull();
});

test('figures are read digit by digit behind the mark, words as they are', () => {
  expect(figureAloud('84.020', 'point')).toBe('84 point 0 2 0');
  expect(figureAloud('0,05', 'Komma')).toBe('0 Komma 0 5');
  expect(figureAloud('.0025', 'point')).toBe('point 0 0 2 5');
  expect(figureAloud('84.000 (3.3071)', 'point')).toBe('84 point 0 0 0 (3 point 3 0 7 1)');
  expect(figureAloud('5-3-1-2-4-6', 'point')).toBe('5-3-1-2-4-6');
  expect(
    aloudLines({ id: 'a', cells: { what: 'Bore', wear: '84.1', new: '84', kind: 'cylinder-bore', note: ' ' } }),
  ).toEqual([
    { column: 'new', text: '84' },
    { column: 'wear', text: '84.1' },
  ]);
  const rows = [newRow(), newRow(), newRow()];
  expect(firstToRead(rows, (row) => row === rows[0])).toBe(1);
  expect(firstToRead(rows, () => true)).toBe(0);
});

/** The server's answers, given in whatever order the test likes. */
const asked: { readonly body: string; readonly answer: (reply: unknown) => void }[] = [];
vi.mock('../src/api/sheets', () => ({
  proofOf: (draft: unknown) => new Promise((answer) => asked.push({ body: JSON.stringify(draft), answer })),
}));
const replied = (row: string, understood: string): unknown => ({
  ok: true,
  value: {
    rows: [
      {
        row,
        name: 'a',
        cells: [{ column: 'wear', understood, problems: [] }],
        problems: [],
        waits: null,
        limits: 0,
        open: false,
        unused: null,
      },
    ],
    findings: [],
    decisions: [],
    problems: [],
  },
});
const settled = async (): Promise<void> => {
  for (let n = 0; n < 5; n += 1) await Promise.resolve();
};

beforeEach(() => {
  asked.length = 0;
  vi.useFakeTimers();
});

test('an answer speaks of the text it was asked about; one that comes late is dropped', async () => {
  const { SheetProof } = await import('../src/state/sheet/proof.svelte');
  const proof = new SheetProof();
  const older = one({ wear: '84.1' });
  const newer = one({ wear: '84.10' });
  const [row] = newer.rows;
  if (row === undefined) throw new Error('a row');
  proof.ask(older);
  vi.advanceTimersByTime(300);
  proof.ask(newer);
  vi.advanceTimersByTime(300);
  expect(asked).toHaveLength(2);
  asked[1]?.answer(replied('a', '84.10 mm'));
  await settled();
  expect(proof.cell(row, 'wear', newer)?.understood).toBe('84.10 mm');
  asked[0]?.answer(replied('a', '84.1 mm'));
  await settled();
  expect(proof.cell(row, 'wear', newer)?.understood).toBe('84.10 mm');
  const typed = one({ wear: '84.100' });
  expect(
    proof.cell(typed.rows[0] ?? row, 'wear', typed),
    'nothing is known of a text nobody answered about',
  ).toBeNull();
  expect(proof.cell(row, 'wear', { ...newer, unit: 'in' })).toBeNull();
});

test('keys that come quickly are asked about once', () => {
  return import('../src/state/sheet/proof.svelte').then(({ SheetProof }) => {
    const proof = new SheetProof();
    for (const wear of ['8', '84', '84.', '84.1']) {
      proof.ask(one({ wear }));
      vi.advanceTimersByTime(100);
    }
    vi.advanceTimersByTime(300);
    expect(asked.map((each) => JSON.parse(each.body) as unknown)).toMatchObject([
      { rows: [{ cells: { wear: '84.1' } }] },
    ]);
  });
});

test('two pages never have one id in the engine; one that was entered keeps its own', () => {
  const page = { ...one({}), book: 'Übungs-Buch, 2. Auflage', page: '31' };
  expect(sheetId(page)).toMatch(/^[a-z0-9-]{1,40}$/);
  expect(sheetId(page)).not.toBe(sheetId({ ...newPage(null, 1), book: page.book, page: page.page }));
  expect(sheetId({ ...page, sent: { sheet: 'book', asked: '' } })).toBe('book');
  const typed = pageOfSheet('book', draftOf({ ...page, unit: 'mm' }), 5);
  expect(typed.sent).toEqual({ sheet: 'book', asked: JSON.stringify(draftOf(typed)) });
  expect(typed.rows[0]?.id).toBe('a');
});
