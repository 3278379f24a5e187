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
    if (page?.setting == null) return 'reading';
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
    const degrees = `${typing.take(false).text} °C`;
    if (this.step === 'part-temperature') {
      this.#part = degrees;
      this.#temperatures = 'master';
    } else await this.#send(job, setting, degrees);
  }

  /** What was not measured is left out. */
  async skip(page: RoundReply): Promise<void> {
    const { job } = this.work.asks();
    this.work.typing.put('');
    if (this.step === 'zero') this.looking = null;
    else if (this.step === 'part-temperature') this.#temperatures = 'master';
    else if (page.setting !== null) await this.#send(job, page.setting.id, '');
  }

  async #send(job: string, setting: string, master: string): Promise<void> {
    const part = this.#part;
    this.#temperatures = 'done';
    if (part === '' && master === '') return;
    await act(job, {
      act: 'temperatures',
      setting,
      ...(part === '' ? {} : { part }),
      ...(master === '' ? {} : { master }),
    });
  }
}
