import type { Act } from '../../api/acts';
import type { Trouble } from '../../api/http';

/** As much as goes over although the page is closed meanwhile; the server takes twice as much. */
const most = { acts: 40, bytes: 29000 };

function bytesOf(act: Act): number {
  return new TextEncoder().encode(JSON.stringify(act)).length + 1;
}

/** How many acts go at once: one that cannot be read, or is too big, holds up none beside it. */
export class Parcels {
  /** Of jobs whose last parcel was refused for what was in it. */
  readonly #fewer = new Map<string, number>();

  /** The first of `acts` that go together; at least one. */
  of(job: string, acts: readonly Act[]): readonly Act[] {
    let bytes = 0;
    const fits = acts.slice(0, this.#fewer.get(job) ?? most.acts).filter((act) => {
      bytes += bytesOf(act);
      return bytes <= most.bytes;
    });
    return fits.length > 0 ? fits : acts.slice(0, 1);
  }

  arrived(job: string): void {
    this.#fewer.delete(job);
  }

  /** Half as many go next. Gives the act that is at fault, once it was alone. */
  refused(job: string, acts: readonly Act[]): Act | null {
    if (acts.length === 1) {
      this.#fewer.delete(job);
      return acts[0] ?? null;
    }
    this.#fewer.set(job, Math.ceil(acts.length / 2));
    return null;
  }
}

/** Whether a parcel was refused for what is in it: too big, or not to be read. Otherwise (not paired, no such job) it waits. */
export function isForWhatIsInIt({ status, problems }: Extract<Trouble, { kind: 'refused' }>): boolean {
  return status === 413 || (status === 400 && problems.some((each) => each.code.startsWith('wire.')));
}
