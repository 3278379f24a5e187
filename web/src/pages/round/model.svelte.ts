import { lineDone } from '../../api/devices';
import type { LiveLineGaugeLine } from '../../generated/wire';
import type { Unit } from '../../lib/hand';
import { markOf } from '../../lib/language';
import { look, t } from '../../state/look.svelte';
import { device } from '../../state/person.svelte';
import { preferences } from '../../state/preferences.svelte';
import { Closing } from '../../state/round/closing.svelte';
import { GaugeLines, unitOf } from '../../state/round/gauge_lines.svelte';
import { AtWork } from '../../state/round/presence.svelte';
import { RoundWork, type RoundAsked } from '../../state/round/round_work.svelte';
import { setAside } from '../../state/round/set_aside';
import { speak, warn } from '../../state/round/senses';

export type Sheet = 'note' | 'how' | 'part' | 'options' | 'gauges' | null;

/** A second Enter within this time, with nothing typed in between, is a bounce of the finger, not an act. */
const bounce = 250;

/** Everything that the page of a round holds together. */
export class RoundModel {
  readonly work: RoundWork;
  readonly closing: Closing;
  readonly gauges = new GaugeLines();
  readonly atWork = new AtWork();
  /** What lies over the picture. */
  sheet = $state<Sheet>(null);
  /** The edge of the screen flashes where the phone cannot shake. */
  flash = $state(0);
  #lastEnter = -bounce;

  constructor(asks: () => RoundAsked) {
    this.work = new RoundWork(asks);
    this.closing = new Closing(this.work);
  }

  /** By another person, whose round it is: no first reading is taken here. A second pass is free. */
  readonly heldBy = $derived.by(() => (this.work.asks().wanted.second === true ? null : this.atWork.other));
  get sided(): boolean {
    const { step } = this.closing;
    return this.work.sided && step !== 'part-temperature' && step !== 'master-temperature';
  }
  get halves(): boolean {
    return this.sided && (this.work.page?.gauge?.halves ?? false);
  }
  /** The figures of this place have signs, and no needle. */
  get signed(): boolean {
    return !this.sided && this.closing.step === 'reading' && (this.work.page?.gauge?.both_ways ?? false);
  }
  get mark(): '.' | ',' {
    return markOf(this.work.page?.decimal_mark ?? null, look.language);
  }

  press(key: string): void {
    this.work.typing.press(key);
    this.#asks();
  }
  put(text: string): void {
    this.work.typing.put(text);
    this.#asks();
  }
  back(): void {
    this.work.typing.back();
    this.#asks();
  }
  turn(): void {
    this.work.typing.turn();
    if (preferences.now.spoken) speak(t(`turns.${this.work.typing.side}`));
    this.#asks();
  }
  sign(): void {
    this.work.typing.sign();
    this.#asks();
  }
  chooseUnit(unit: Unit | null): void {
    this.work.units.choose(this.work.page, unit);
    this.#asks();
  }
  #asks(): void {
    this.#lastEnter = -bounce;
    if (this.closing.step === 'reading') this.work.ask();
  }

  async enter(): Promise<void> {
    const now = performance.now();
    if (now - this.#lastEnter < bounce || this.heldBy !== null) return;
    const { questions, typing, page } = this.work;
    const question = questions.now;
    if (/^-?$/.test(typing.text) && question?.offer == null) return;
    this.#lastEnter = now;
    if (page === null) return;
    if (typing.text === '' && question?.offer != null) {
      await this.#accept();
    } else if (this.closing.step !== 'reading') {
      await this.closing.store(page);
    } else {
      if (this.sheet === 'how') this.sheet = null;
      const before = questions.asked;
      const stored = this.work.store();
      if (questions.asked !== before) this.warn();
      await stored;
    }
  }

  /** Yes: the earlier reading is set aside. */
  async #accept(): Promise<void> {
    const { questions, places } = this.work;
    const question = questions.now;
    const place = places.find((each) => each.key === question?.place);
    if (question?.offer == null || place === undefined) return;
    const { event, text, flag, why } = question.offer;
    questions.drop();
    this.work.typing.aim(null);
    await setAside(this.work, { place, event, text, flag, note: '', why });
  }

  warn(): void {
    if (!warn()) this.flash += 1;
  }

  /** It stands: go on with no argument. */
  stands(): void {
    this.work.stands();
  }
  /** On the list of what is asked again. */
  later(): void {
    const place = this.work.place?.key;
    this.work.goOn();
    if (place !== undefined) this.work.passed = new Set([...this.work.passed, place]);
  }
  again(): void {
    const { last, typing } = this.work;
    if (last !== null) typing.aim(last.place.key);
    this.#asks();
  }
  go(place: string): void {
    this.work.passed = new Set([...this.work.passed].filter((each) => each !== place));
    this.work.questions.drop();
    this.work.typing.aim(place);
    this.sheet = null;
    this.#asks();
  }

  /** A line of the gauge whose port this device took. */
  async line(line: LiveLineGaugeLine): Promise<void> {
    const { typing } = this.work;
    if (line.reading === null || typing.text !== '' || this.work.page === null || this.heldBy !== null) {
      this.gauges.came(line);
      return;
    }
    await this.use(line);
  }
  async use(line: LiveLineGaugeLine): Promise<void> {
    if (line.reading === null || this.heldBy !== null) return;
    const { step } = this.closing;
    if (step !== 'reading' && step !== 'zero') {
      this.gauges.came(line); // a gauge's line is no temperature, and nothing else is asked for: it waits
      return;
    }
    const { work } = this;
    work.typing.put(line.reading.text);
    if (this.closing.step === 'reading') {
      const id = await work.store(unitOf(line.reading.unit));
      if (id !== null) await this.gauges.done(line.number, work.asks().job, id);
      else this.gauges.came(line);
    } else if (work.page !== null) {
      await this.closing.store(work.page);
      await lineDone({ number: line.number, device });
    }
  }
}
