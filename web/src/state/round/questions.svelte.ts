import type { UnderstoodReply } from '../../generated/wire';
import type { Place } from '../../lib/round';

/** What is asked about a place: first "read it again", then perhaps "set the first aside?". Never more than one question a place. */
export interface Question {
  readonly place: string;
  readonly name: string;
  readonly event: string;
  readonly sentence: string;
  /** Set the earlier reading aside; Enter with an empty field is yes. */
  readonly offer: (NonNullable<UnderstoodReply['offer']> & { readonly text: string }) | null;
}

export class Questions {
  now = $state.raw<Question | null>(null);
  /** Counts questions, for the flash at the edge. */
  asked = $state(0);
  /** Places that were asked about: not again in this round. */
  readonly #once = new Set<string>();

  /** A reading was stored; `meaning` is what the server says of its text, if it said so in time. */
  stored(place: Place, event: string, meaning: UnderstoodReply | null): void {
    if (this.now?.place === place.key) {
      const offer = meaning?.offer ?? null;
      const first = place.readings.find((each) => each.event === offer?.event);
      this.now =
        offer === null || first === undefined || this.now.offer !== null
          ? null
          : { ...this.now, sentence: offer.sentence, offer: { ...offer, text: first.text } };
      return;
    }
    if (meaning?.question != null) this.ask(place, event, meaning.question.sentence);
  }

  /** Also for a question that came only with the server's answer. False where the place was asked about before. */
  ask(place: Place, event: string, sentence: string): boolean {
    if (this.#once.has(place.key)) return false;
    this.#once.add(place.key);
    this.asked += 1;
    this.now = { place: place.key, name: place.name, event, sentence, offer: null };
    return true;
  }

  drop(): void {
    this.now = null;
  }
}
