import { onAnswered } from '../../state/acts.svelte';
import type { Told } from '../../state/told.svelte';

/** A setting that is written down here while the server is away: goes over by itself, and tells when it has, or why not. */
export class WaitingSetting {
  id = $state<string | null>(null);

  constructor(
    private readonly job: () => string,
    private readonly settled: (id: string, refused: Told | null) => void,
  ) {}

  /** Gives the function that ends it. */
  follow(): () => void {
    return onAnswered((job, act, reply) => {
      if (job !== this.job() || act.act !== 'setting' || act.setting !== this.id) return;
      this.id = null;
      this.settled(act.setting, reply.kept ? null : { kind: 'refused', problems: reply.problems });
    });
  }
}
