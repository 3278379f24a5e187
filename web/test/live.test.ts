import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { listen, type LiveListener } from '../src/api/live';

/** A browser's line that can break for good. */
class Line extends EventTarget {
  static readonly CLOSED = 2;
  static all: Line[] = [];
  readyState = 0;
  constructor(readonly url: string) {
    super();
    Line.all.push(this);
  }
  close(): void {
    this.readyState = Line.CLOSED;
  }
  breaks(forGood: boolean): void {
    this.readyState = forGood ? Line.CLOSED : 0;
    this.dispatchEvent(new Event('error'));
  }
}
const opened: boolean[] = [];
const listener: LiveListener = {
  accepted: () => undefined,
  present: () => undefined,
  gaugeLine: () => undefined,
  tray: () => undefined,
  open: (stands) => opened.push(stands),
};

beforeEach(() => {
  Line.all = [];
  vi.useFakeTimers();
  vi.stubGlobal('EventSource', Line);
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

test('a line that the browser gave up is opened anew; one that it mends itself is left to it; none after the end', () => {
  const end = listen('linnet-4', 'd-1', listener);
  Line.all[0]?.breaks(false);
  vi.advanceTimersByTime(10000);
  expect(Line.all).toHaveLength(1);
  Line.all[0]?.breaks(true);
  vi.advanceTimersByTime(10000);
  expect(Line.all).toHaveLength(2);
  Line.all[1]?.breaks(true);
  end();
  vi.advanceTimersByTime(10000);
  expect(Line.all).toHaveLength(2);
  expect(opened).toEqual([false, false, false]);
});
