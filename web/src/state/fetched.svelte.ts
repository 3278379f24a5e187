import type { Answer, Trouble } from '../api/http';
import { look } from './look.svelte';

/** One answer of the server on the screen: the last good one stays while it is asked for again. The last question's answer wins. */
export class Fetched<T> {
  value = $state<T | null>(null);
  trouble = $state<Trouble | null>(null);
  #asked = 0;
  readonly #ask: () => Answer<T>;

  constructor(ask: () => Answer<T>) {
    this.#ask = ask;
  }

  async load(): Promise<void> {
    this.#asked += 1;
    const mine = this.#asked;
    const answer = await this.#ask();
    if (mine !== this.#asked) return;
    if (answer.ok) {
      this.value = answer.value;
      this.trouble = null;
    } else {
      this.trouble = answer.error;
    }
  }
}

/** For a component: loads at once, and again in the other language. */
export function fetched<T>(ask: () => Answer<T>): Fetched<T> {
  const out = new Fetched(ask);
  $effect(() => {
    if (look.language.length > 0) void out.load();
  });
  return out;
}
