import type { RoundReply } from '../../generated/wire';
import { act } from '../acts.svelte';
import type { RoundWork } from './round_work.svelte';

export type Step = 'reading' | 'zero' | 'part-temperature' | 'master-temperature' | 'done';

/** What follows the last place: the zero, which closes the round; then temperatures. A zero in between is a look, and closes nothing. */
export class Closing {
  /** Asked for by hand. */
  looking = $state<'look' | 'close' | null>(null);
  zeroKept = $state<string | null>(null);
  #temperatures = $state<'part' | 'master' | 'done'>('part');
  #part = '';

  constructor(private readonly work: RoundWork) {}

  readonly step = $derived.by((): Step => {
    const { page, place } = this.work;
    if (page?.setting == null) return page === null || place !== null ? 'reading' : 'done';
    if (this.looking !== null) return 'zero';
    if (place !== null) return 'reading';
    if (page.zero.wanted && this.zeroKept === null && !page.closed) return 'zero';
    if (page.temperatures.wanted && this.#temperatures === 'part') return 'part-temperature';
    if (page.temperatures.wanted && this.#temperatures === 'master') return 'master-temperature';
    return 'done';
  });

  /** What was typed for this step. */
  async store(page: RoundReply): Promise<void> {
    const { typing, own } = this.work;
    const { job } = this.work.asks();
    const setting = page.setting?.id;
    if (setting === undefined || typing.text === '') return;
    if (this.step === 'zero') {
      const closes = this.looking !== 'look';
      const shows = typing.take(this.work.sided).text;
      this.zeroKept = closes ? shows : null;
      this.looking = null;
      this.work.last = null;
      await act(job, {
        act: 'zero',
        setting,
        round: page.round,
        after_order: own.nextOrder(page, setting) - 1,
        shows,
        ...(closes ? { closes } : {}),
      });
      return;
    }
    // All is in: a figure typed now belongs nowhere, and is no temperature.
    if (this.step !== 'part-temperature' && this.step !== 'master-temperature') return;
    const degrees = `${typing.take(false).text} °C`;
    if (this.step === 'part-temperature') {
      this.#part = degrees;
      this.#temperatures = 'master';
      return;
    }
    this.#temperatures = 'done';
    await act(job, { act: 'temperatures', setting, part: this.#part, master: degrees });
  }

  /** One temperature alone says nothing: both are left out. */
  skip(): void {
    this.work.typing.put('');
    if (this.step === 'zero') this.looking = null;
    else this.#temperatures = 'done';
  }
}
