import type { SheetRow, Typeable } from './sheet';

/** A line of a row as it is shown in large type and spoken. */
export interface AloudLine {
  readonly column: Typeable;
  readonly text: string;
}

/** In the order of the printed line. */
const order: readonly Typeable[] = [
  'step',
  'grade',
  'new',
  'new-max',
  'wear',
  'fit',
  'standard',
  'per',
  'stages',
  'sequence',
  'quantity',
  'once',
  'choose',
  'note',
];

export const aloudLines = (row: SheetRow): readonly AloudLine[] =>
  order.flatMap((column) => {
    const text = (row.cells[column] ?? '').trim();
    return text === '' ? [] : [{ column, text }];
  });

/** A figure digit by digit behind its mark, as one reads to another: "84.020" -> "84 point 0 2 0". */
export const figureAloud = (text: string, mark: string): string =>
  text
    .replace(/(\d*)[.,](\d+)/g, (_all, whole: string, behind: string) =>
      [whole, mark, ...Array.from(behind)].filter((each) => each !== '').join(' '),
    )
    .replace(/\s+/g, ' ')
    .trim();

/** The row in which reading goes on: the first that nobody has ticked; all are: the first. */
export function firstToRead(rows: readonly SheetRow[], ticked: (row: SheetRow) => boolean): number {
  const at = rows.findIndex((row) => !ticked(row));
  return at < 0 ? 0 : at;
}
