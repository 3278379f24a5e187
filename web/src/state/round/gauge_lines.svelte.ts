import { leavePort, lineDone, ports, takePort } from '../../api/devices';
import type { LiveLineGaugeLine, PortsReply } from '../../generated/wire';
import type { Unit } from '../../lib/hand';
import { device } from '../person.svelte';

/** A line that names no unit is in the gauge's own. */
export const unitOf = (unit: string): Unit | undefined =>
  unit === 'div' || unit === 'mm' || unit === 'in' ? unit : undefined;

/** Gauges at the server's serial ports. A line goes to the one device that took the port; lines nobody took wait, never guessed. */
export class GaugeLines {
  page = $state.raw<PortsReply | null>(null);
  waiting = $state(0);
  /** Lines for this device that could not be used at once. */
  mine = $state.raw<readonly LiveLineGaugeLine[]>([]);

  async load(): Promise<void> {
    const answer = await ports();
    if (!answer.ok) return;
    this.page = answer.value;
    this.waiting = answer.value.waiting.length;
  }
  async take(port: string): Promise<void> {
    await takePort(port, device);
    await this.load();
  }
  async leave(port: string): Promise<void> {
    await leavePort(port, device);
    await this.load();
  }
  came(line: LiveLineGaugeLine): void {
    if (!this.mine.some((each) => each.number === line.number)) this.mine = [...this.mine, line];
  }
  /** Used by an act, or put aside by hand. */
  async done(number: number, job?: string, act?: string): Promise<void> {
    this.mine = this.mine.filter((each) => each.number !== number);
    await lineDone({ number, device, ...(job === undefined || act === undefined ? {} : { job, act }) });
  }
}
