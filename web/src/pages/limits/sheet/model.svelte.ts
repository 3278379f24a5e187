import { tick } from 'svelte';
import { engine as askEngine, kinds as askKinds, keepFile } from '../../../api/jobs';
import { validated, type Trouble } from '../../../api/http';
import { nowWithOffset } from '../../../lib/ids';
import {
  asTicked,
  draftOf,
  isTicked,
  newRow,
  withCell,
  withDecision,
  withoutDecision,
  withoutRow,
  withRow,
  type BookPage,
  type Column,
  type Decision,
  type SheetRow,
} from '../../../lib/sheet';
import { sheetId } from '../../../lib/sheet_id';
import { keepPage, keptPage } from '../../../state/acts.svelte';
import { person } from '../../../state/person.svelte';
import { keep, keepForGood } from '../../../state/sheet/kept_pages';
import { SheetProof } from '../../../state/sheet/proof.svelte';
import type { Replies } from '../../../generated/wire';

type Kinds = Replies['kind-list']['kinds'];
/** So long after the last key the database has it too. */
const rest = 600;

/** Which field has the focus, and how high it stands: when an answer changes what lies above, it stays there. */
function heldInPlace(): void {
  const field = document.activeElement;
  const was = field?.getBoundingClientRect().top ?? 0;
  void tick().then(() => {
    const moved = (field?.getBoundingClientRect().top ?? 0) - was;
    if (field?.isConnected === true && moved !== 0) scrollBy(0, moved);
  });
}

/** One page of a book on its way into the job. */
export class SheetModel {
  page: BookPage;
  readonly proof = new SheetProof(heldInPlace);
  /** This browser has it. */
  here = $state(true);
  kinds = $state.raw<Kinds>([]);
  sections = $state.raw<Replies['kind-list']['sections']>([]);
  /** Kinds that the engine has. */
  own = $state.raw<readonly string[]>([]);
  gone = $state.raw<{ readonly row: SheetRow; readonly at: number } | null>(null);
  photoTrouble = $state.raw<Trouble | null>(null);
  readonly job: string;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(job: string, page: BookPage) {
    this.job = job;
    this.page = $state.raw(page);
    this.here = keep(job, page);
    this.proof.ask(page, 0);
    void this.#lists();
  }

  /** As they were last seen, where the server is away. */
  async #lists(): Promise<void> {
    const [kinds, engine] = await Promise.all([askKinds(), askEngine(this.job)]);
    if (kinds.ok) void keepPage('kinds', kinds.value);
    if (engine.ok) void keepPage(`engine.${this.job}`, engine.value);
    const known = kinds.ok ? kinds : validated('kind-list', await keptPage('kinds'));
    const parts = engine.ok ? engine : validated('engine', await keptPage(`engine.${this.job}`));
    if (known.ok) {
      this.kinds = known.value.kinds;
      this.sections = known.value.sections;
    }
    if (parts.ok) this.own = parts.value.groups.map((group) => group.kind);
  }

  #now(page: BookPage, asks = true): void {
    this.page = { ...page, at: Math.max(Date.now(), this.page.at + 1) };
    this.here = keep(this.job, this.page);
    if (asks) this.proof.ask(this.page);
    clearTimeout(this.#timer);
    const last = this.page;
    this.#timer = setTimeout(() => void keepForGood(this.job, last), rest);
  }

  put(part: Partial<Pick<BookPage, 'book' | 'edition' | 'page' | 'original' | 'unit'>>): void {
    this.#now({ ...this.page, ...part });
  }
  type(row: string, column: Column, text: string): void {
    this.#now(withCell(this.page, row, column, text));
  }
  /** What the book does not say is left out; another characteristic has other definitions. */
  mean(row: string, characteristic: string, definition: string): void {
    this.#now(withCell(withCell(this.page, row, 'characteristic', characteristic), row, 'definition', definition));
  }
  choose(row: string, kind: string): void {
    this.#now(
      withCell(withCell(withCell(this.page, row, 'kind', kind), row, 'characteristic', ''), row, 'definition', ''),
    );
  }
  add(at = this.page.rows.length): string {
    const row = newRow();
    this.#now(withRow(this.page, row, at));
    return row.id;
  }
  take(row: SheetRow): void {
    this.gone = { row, at: this.page.rows.findIndex((each) => each.id === row.id) };
    this.#now(withoutRow(this.page, row.id));
  }
  takeBack(): void {
    if (this.gone === null) return;
    this.#now(withRow(this.page, this.gone.row, this.gone.at));
    this.gone = null;
  }

  decide(decision: Omit<Decision, 'who' | 'when'>): void {
    this.#now(withDecision(this.page, { ...decision, who: person.who, when: nowWithOffset().slice(0, 10) }));
  }
  undecide(at: number): void {
    this.#now(withoutDecision(this.page, at));
  }
  tick(row: SheetRow): void {
    const said = { who: person.who, row: asTicked(this.page, row) };
    this.#now({ ...this.page, ticks: { ...this.page.ticks, [row.id]: said } }, false);
  }
  untick(row: SheetRow): void {
    const ticks = Object.fromEntries(Object.entries(this.page.ticks).filter(([id]) => id !== row.id));
    this.#now({ ...this.page, ticks }, false);
  }
  ticked(row: SheetRow): boolean {
    return isTicked(this.page, row);
  }

  get sheet(): string {
    return sheetId(this.page);
  }
  /** The engine has it as it stands. */
  entered(): void {
    this.#now({ ...this.page, sent: { sheet: this.sheet, asked: JSON.stringify(draftOf(this.page)) } }, false);
  }

  /** Into the job, and never sent on. */
  async photo(file: File): Promise<void> {
    const kept = await keepFile(this.job, file, {
      part: '',
      name: file.name,
      note: `${this.page.book}, ${this.page.page}`,
    });
    this.photoTrouble = kept.ok ? null : kept.error;
    if (kept.ok) this.#now({ ...this.page, photo: kept.value.hash }, false);
  }
  withoutPhoto(): void {
    this.#now({ ...this.page, photo: null }, false);
  }
}
