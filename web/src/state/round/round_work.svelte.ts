import type { ReadingBody } from '../../api/acts';
import { validated, type Trouble } from '../../api/http';
import { round, type RoundWanted } from '../../api/rounds';
import type { RoundReply } from '../../generated/wire';
import { inHand, type Unit } from '../../lib/hand';
import { newId } from '../../lib/ids';
import { lastSide, nextPlace, placesOf, readPlaces, type Place } from '../../lib/round';
import { act, keepPage, keptPage, outbox } from '../acts.svelte';
import { look, t } from '../look.svelte';
import { person } from '../person.svelte';
import { remember, remembered } from '../remembered';
import { Meaning } from './meaning.svelte';
import { OwnReadings } from './own_readings.svelte';
import { Questions } from './questions.svelte';
import { readingOf } from './set_aside';
import { Typing } from './typing.svelte';
import { Units } from './units.svelte';

/** What was done last, as long as it may be taken back. */
export interface Done {
  readonly event: string;
  readonly place: Place;
  readonly text: string;
}
export interface RoundAsked {
  readonly job: string;
  readonly part: string;
  readonly wanted: RoundWanted;
  /** Who reads the gauge, where another one types. */
  readonly reader: string;
}

/** The measuring of one part: the server's page, this device's own readings over it, and the number that is being typed. */
export class RoundWork {
  /** As the server has it, whatever place is lit. */
  whole = $state.raw<RoundReply | null>(null);
  trouble = $state.raw<Trouble | null>(null);
  last = $state.raw<Done | null>(null);
  /** Places to come back to, by key. */
  passed = $state.raw<ReadonlySet<string>>(new Set());
  /** Places whose reading stands; remembered on this device. */
  stood = $state.raw<ReadonlySet<string>>(new Set());
  readonly units: Units;
  readonly typing: Typing;
  readonly meaning = new Meaning();
  readonly own: OwnReadings;
  readonly questions = new Questions();
  #asked = 0;

  constructor(readonly asks: () => RoundAsked) {
    const { job, part } = asks();
    this.typing = new Typing(job, part);
    this.own = new OwnReadings(job, part);
    this.units = new Units(job);
    this.stood = new Set((remembered(`stood.${job}.${part}`) ?? '').split(' ').filter((each) => each !== ''));
  }

  readonly places = $derived.by((): Place[] =>
    this.whole === null ? [] : placesOf(this.whole, this.own.all, this.own.takenBack),
  );
  /** The place that is lit; null: all are read. */
  readonly place = $derived.by((): Place | null => {
    const chosen = this.places.find((each) => each.key === (this.questions.now?.place ?? this.typing.at));
    return chosen ?? nextPlace(this.places, this.passed, this.stood);
  });
  /** The page as the lit place has it: what it is read with, under which setting, in which round. */
  readonly page = $derived.by((): RoundReply | null => inHand(this.whole, this.place));
  readonly done = $derived(readPlaces(this.places));
  /** In which its figures are typed; null: nobody has said it yet. */
  readonly unit = $derived.by((): Unit | null => this.units.of(this.page));
  readonly sided = $derived(this.page?.gauge?.sided ?? false);
  /** Refused by the server: acts that nobody has. */
  readonly refused = $derived(outbox.refused.filter((each) => each.job === this.asks().job));

  async load(): Promise<void> {
    const { job, part, wanted } = this.asks();
    this.#asked += 1;
    const mine = this.#asked;
    // The round stays the one that was begun, also when closing its zero would make the next one open.
    const answer = await round(job, part, {
      ...wanted,
      setting: wanted.setting ?? this.whole?.setting?.id ?? null,
      round: wanted.round ?? (this.whole?.setting == null ? null : this.whole.round),
    });
    if (mine !== this.#asked) return;
    const seen = `round ${job} ${part} ${wanted.second === true ? 'second' : ''} ${look.language}`;
    if (answer.ok) {
      this.show(answer.value);
      this.trouble = null;
      await keepPage(seen, answer.value);
      // Not before: a reload with the server away would find neither the page that shows them nor the readings.
      this.own.shown(answer.value);
      return;
    }
    this.trouble = answer.error;
    if (this.whole !== null || answer.error.kind !== 'away') return;
    const kept = validated('round', await keptPage(seen));
    if (kept.ok && mine === this.#asked) this.show(kept.value);
  }

  private show(page: RoundReply): void {
    const first = this.whole === null;
    this.whole = page;
    if (first && !this.typing.known) this.typing.side = lastSide(page) ?? 'anticlockwise';
  }

  /** The reading that the typed text would be; null where there is nothing to send. */
  body(text: string, unit?: Unit): ReadingBody | null {
    const { page, place } = this;
    const { part, reader } = this.asks();
    if (page?.gauge == null || page.setting === null || place === null || text === '') return null;
    const repeat = place.readings.length + 1;
    const inUnit = unit ?? this.unit;
    return readingOf(place, {
      part,
      text,
      ...(inUnit === null ? {} : { unit: inUnit }),
      setting: page.setting.id,
      round: page.round,
      order: this.own.nextOrder(page, page.setting.id),
      ...(repeat > 1 ? { repeat } : {}),
      ...(reader === '' ? {} : { read_by: reader }),
    });
  }

  ask(): void {
    const { job, wanted } = this.asks();
    const body = this.body(this.typing.whole(this.sided));
    this.meaning.ask(job, body, wanted.second === true ? (wanted.who ?? '') : null);
  }

  /** Stores what is typed; the next place is lit before anything else happens. */
  async store(unit?: Unit): Promise<string | null> {
    const { place } = this;
    const text = this.typing.whole(this.sided);
    const plain = this.body(text, unit);
    if (place === null || plain === null || (this.unit === null && unit === undefined)) return null;
    const meaning = this.meaning.of(text);
    if (meaning !== null && meaning.problems.length > 0) return null;
    const { flag, note } = this.typing.take(this.sided);
    const body: ReadingBody = { ...plain, ...(flag === null ? {} : { flag }), ...(note === '' ? {} : { note }) };
    const id = newId();
    this.own.begin(id, person.who, body);
    this.last = { event: id, place, text };
    this.questions.stored(place, id, flag === null ? meaning : null);
    if (this.questions.now === null) this.typing.aim(null);
    this.meaning.ask(this.asks().job, null, null);
    await act(this.asks().job, body, id);
    this.own.written(id);
    return id;
  }

  /** With no argument: nothing more is asked about the place that is lit. */
  stands(): void {
    const { job, part } = this.asks();
    if (this.questions.now !== null) this.stood = new Set([...this.stood, this.questions.now.place]);
    remember(`stood.${job}.${part}`, [...this.stood].join(' '));
    this.goOn();
  }
  goOn(): void {
    this.questions.drop();
    this.typing.aim(null);
  }

  /** The last act, by a superseding event. */
  async takeBack(): Promise<void> {
    const { last } = this;
    if (last === null) return;
    this.last = null;
    this.own.withdraw(last.event);
    this.questions.drop();
    this.typing.aim(last.place.key);
    await act(this.asks().job, { act: 'withdraw', event: last.event, why: t('round.why_taken_back') });
  }
}
