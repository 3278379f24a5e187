import { proofOf } from '../../api/sheets';
import type { Replies } from '../../generated/wire';
import { draftOf, fieldOf, type BookPage, type Column, type SheetDraft, type SheetRow } from '../../lib/sheet';

export type Proof = Replies['sheet-draft-proof'];
export type Finding = Proof['findings'][number];
export type ProofRow = Proof['rows'][number];
export interface CellSaid {
  readonly understood: string | null;
  readonly problems: ProofRow['cells'][number]['problems'];
}

/** Time for the next letter to come before the server is asked. */
const breath = 250;

/** What the server makes of the page as it is typed. An answer speaks only of texts that still stand there; one that comes late is dropped. */
export class SheetProof {
  reply = $state.raw<Proof | null>(null);
  away = $state(false);
  /** Why the server would not say. */
  refused = $state.raw<readonly { readonly code: string; readonly what: string; readonly do: string }[]>([]);
  /** What `reply` was asked about. */
  #about = $state.raw<SheetDraft | null>(null);
  #asked = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;
  readonly #before: () => void;

  /** `before`: called before the page changes by an answer, so that nothing moves under the hand. */
  constructor(before: () => void = () => undefined) {
    this.#before = before;
  }

  ask(page: BookPage, wait = breath): void {
    clearTimeout(this.#timer);
    this.#asked += 1;
    const mine = this.#asked;
    const draft = draftOf(page);
    this.#timer = setTimeout(() => {
      void proofOf(draft).then((answer) => {
        if (mine !== this.#asked) return;
        this.#before();
        this.away = !answer.ok && answer.error.kind === 'away';
        this.refused = !answer.ok && answer.error.kind === 'refused' ? answer.error.problems : [];
        if (!answer.ok) return;
        this.reply = answer.value;
        this.#about = draft;
      });
    }, wait);
  }
  stop(): void {
    clearTimeout(this.#timer);
    this.#asked += 1;
  }

  /** The whole row is as it was asked about. */
  #stands(row: SheetRow, page: BookPage): boolean {
    const about = this.#about;
    const then = about?.rows.find((each) => each.id === row.id);
    const now = draftOf({ ...page, rows: [row] }).rows[0];
    return about?.unit === (page.unit ?? undefined) && JSON.stringify(then?.cells) === JSON.stringify(now?.cells);
  }

  row(row: SheetRow, page: BookPage): ProofRow | null {
    return this.#stands(row, page) ? (this.reply?.rows.find((each) => each.row === row.id) ?? null) : null;
  }

  /** Only if it is about this very text; null: nothing is known of it. */
  cell(row: SheetRow, column: Column, page: BookPage): CellSaid | null {
    const about = this.#about;
    const then = about?.rows.find((each) => each.id === row.id);
    const now = draftOf({ ...page, rows: [row] }).rows[0];
    const sent = column === 'new' && now?.cells['new-min'] !== undefined ? 'new-min' : column;
    if (about === null || then === undefined || about.unit !== (page.unit ?? undefined)) return null;
    if (then.cells[sent] !== now?.cells[sent]) return null;
    const said = this.reply?.rows
      .find((each) => each.row === row.id)
      ?.cells.find((each) => fieldOf(each.column, row.cells) === column);
    return { understood: said?.understood ?? null, problems: said?.problems ?? [] };
  }

  /** Of which this row is what they are about. */
  findings(row: SheetRow, page: BookPage): readonly Finding[] {
    return (this.reply?.findings ?? []).filter(
      (each) =>
        each.spots[0].row === row.id &&
        [...each.spots, ...each.likeliest].every((spot) => {
          const other = page.rows.find((one) => one.id === spot.row);
          return other !== undefined && this.#stands(other, page);
        }),
    );
  }
}
