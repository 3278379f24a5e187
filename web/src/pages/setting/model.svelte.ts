import { gaugesFor, settingUp } from '../../api/gauges';
import { engine } from '../../api/jobs';
import type { ActBody } from '../../api/acts';
import type { Replies } from '../../generated/wire';
import { inMarkOfJob, type Side } from '../../lib/decimal';
import type { Query } from '../../lib/routes';
import { fetched, Fetched } from '../../state/fetched.svelte';
import { remember } from '../../state/remembered';
import { go, keepInAddress } from '../../state/route.svelte';
import { tell, type Told } from '../../state/told.svelte';
import { freeId, settingBody } from './body';
import { draftOf, empty, type Draft } from './draft';
import { WaitingSetting } from './waits.svelte';

export const steps = ['gauge', 'rods', 'master', 'zero', 'sense'] as const;
export type Step = (typeof steps)[number];
export type Gauge = Replies['gauge-page']['gauges'][number];

/** One gauge on its way to be set: where one is stands in the address, what was typed on this device. */
export class SettingModel {
  readonly gauges;
  readonly engine;
  readonly screens;
  told = $state<Told | null>(null);
  busy = $state(false);
  readonly waits: WaitingSetting;
  draft = $state<Draft>(empty);
  /** The sides of the last zero stay: the needle nearly always stands on one. */
  side = $state<Side>('anticlockwise');
  readonly #address: () => { job: string; what: string; query: Query };

  constructor(address: () => { job: string; what: string; query: Query }) {
    this.#address = address;
    this.waits = new WaitingSetting(
      () => this.job,
      (id, refused) => {
        this.told = refused;
        if (refused === null) this.done(id);
      },
    );
    this.gauges = fetched(() => gaugesFor(this.job, this.what, this.at));
    this.engine = fetched(() => engine(this.job));
    this.screens = new Fetched(() =>
      settingUp(this.job, {
        gauge: this.gaugeId,
        for: this.what,
        master: this.masterId,
        size: this.size,
        set: this.lockedAt,
      }),
    );
    this.draft = draftOf(this.#key);
  }

  get job(): string {
    return this.#address().job;
  }
  get what(): string {
    return this.#address().what;
  }
  get query(): Query {
    return this.#address().query;
  }
  /** The place that it is for; null: the part, or the kind. */
  get at(): string | null {
    return this.query['at'] ?? null;
  }
  free(letter: 'g' | 'm'): string {
    return freeId(this.engine.value?.gauges ?? [], letter);
  }
  get gaugeId(): string {
    return this.query['gauge'] ?? '';
  }
  get gauge(): Gauge | null {
    return this.gauges.value?.gauges.find((each) => each.id === this.gaugeId) ?? null;
  }
  get masterId(): string | null {
    return this.query['master'] ?? null;
  }
  get size(): string | null {
    return this.query['size'] ?? null;
  }
  /** What the micrometer was really locked at: proof and pointers hang on it. */
  get lockedAt(): string | null {
    return this.draft.set === '' || this.draft.lockedOn !== '' ? null : this.draft.set;
  }
  get step(): Step | 'add' {
    const asked = this.query['step'] ?? 'gauge';
    return asked === 'add' || (steps as readonly string[]).includes(asked) ? (asked as Step | 'add') : 'gauge';
  }
  get mark(): 'point' | 'comma' | null {
    return this.engine.value?.decimal_mark ?? null;
  }
  /** The size to set to, in words: the server's, or as somebody typed it while no master is there yet that could lend it. */
  get wanted(): string | null {
    const page = this.screens.value;
    const typedWrong = page?.problems.some((each) => /^(entry|units)\.|set_size_positive/.test(each.code)) ?? false;
    return page?.wanted ?? (typedWrong ? null : this.size);
  }
  /** What the server wrote, as this job takes it. */
  typed(text: string): string {
    return inMarkOfJob(text, this.mark);
  }

  to(step: Step | 'add', more: Record<string, string> = {}): void {
    this.told = null;
    go('setting', { job: this.job, for: this.what }, { ...this.query, ...more, step });
  }
  asks(more: Record<string, string>): void {
    keepInAddress('setting', { job: this.job, for: this.what }, { ...this.query, ...more });
  }
  back(): void {
    history.back();
  }

  put(part: Partial<Draft>): void {
    this.draft = { ...this.draft, ...part };
    remember(this.#key, JSON.stringify(this.draft));
  }
  forget(): void {
    this.draft = empty;
    remember(this.#key, null);
  }
  get #key(): string {
    return `setting.${this.job}.${this.what}`;
  }

  async #send(body: ActBody): Promise<boolean> {
    if (this.busy) return false;
    this.busy = true;
    this.told = await tell(this.job, body);
    this.busy = false;
    return this.told.kind === 'kept';
  }

  /** A gauge or a master that this engine did not have yet. */
  async register(body: Extract<ActBody, { act: 'gauge' }>): Promise<boolean> {
    const kept = await this.#send(body);
    if (kept) await Promise.all([this.gauges.load(), this.engine.load()]);
    return kept;
  }

  /** A gauge of which nothing has to be known, straight to hand: feelers, a caliper, scales. */
  async takeNew(preset: string): Promise<void> {
    const gauge = this.free('g');
    if (!(await this.register({ act: 'gauge', gauge, preset }))) return;
    const id = `${gauge}-1`;
    const kept = await this.#send({ act: 'setting', setting: id, gauge });
    if (kept) this.done(id);
    else this.to('rods', { gauge });
  }

  /** The setting itself: all that was typed, none of what it means. */
  async keep(): Promise<void> {
    const body = settingBody(this);
    const id = body.setting;
    const kept = await this.#send(body);
    if (kept) this.done(id);
    else if (this.told?.kind === 'waiting') this.waits.id = id;
  }

  /** On to the part that it was set for; for a kind, to the whole engine. */
  done(setting: string): void {
    this.forget();
    const parts = this.engine.value?.groups.flatMap((group) => group.parts.map((each) => each.id)) ?? [];
    const place = this.at === null ? {} : { place: this.at };
    if (parts.includes(this.what))
      go('round', { job: this.job, part: this.what }, setting === '' ? {} : { setting, ...place });
    else go('engine', { job: this.job });
  }
}
