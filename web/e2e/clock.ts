import type { BrowserContext, Page } from 'playwright-core';

/** From the finger's lift on ENTER to the frame in which another place is lit, ms; measured in the page. */
export async function watchLit(page: Page): Promise<void> {
  await page.evaluate(() => {
    const lit: number[] = [];
    Object.assign(globalThis, { lit });
    let lifted: number | null = null;
    document.addEventListener(
      'pointerup',
      (event) => {
        if (event.target instanceof Element && event.target.closest('button')?.textContent === 'ENTER')
          lifted = performance.now();
      },
      true,
    );
    new MutationObserver(() => {
      if (lifted === null) return;
      const began = lifted;
      lifted = null;
      // The frame is painted when the task after it runs.
      requestAnimationFrame(() => setTimeout(() => lit.push(performance.now() - began)));
    }).observe(document.querySelector('h2.words') ?? document.body, {
      subtree: true,
      childList: true,
      characterData: true,
    });
  });
}
export const litTimes = (page: Page): Promise<number[]> =>
  page.evaluate(() => (globalThis as unknown as { lit: number[] }).lit);

export const median = (all: readonly number[]): number => [...all].sort((a, b) => a - b)[all.length >> 1] ?? 0;

/** From the first byte asked for to keys that take a digit, ms, on a processor so many times slower; and what came over the line, kB. */
export async function timeToKeys(
  context: BrowserContext,
  url: string,
  slower: number,
): Promise<{ ms: number; sent: number; plain: number }> {
  const page = await context.newPage();
  const session = await context.newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: slower });
  await page.addInitScript(() => {
    const look = (): void => {
      if (document.querySelector('.keypad') !== null && document.querySelector('h2.words b')?.textContent !== '')
        Object.assign(globalThis, { usable: performance.now() });
      else requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
  });
  await page.goto(url);
  await page.waitForFunction(() => 'usable' in globalThis);
  const found = await page.evaluate(() => {
    const shell = [...performance.getEntriesByType('navigation'), ...performance.getEntriesByType('resource')]
      .map((each) => each as PerformanceResourceTiming)
      .filter((each) => !each.name.includes('/api/'));
    const sum = (of: (each: PerformanceResourceTiming) => number): number =>
      shell.reduce((all, each) => all + of(each), 0) / 1000;
    return {
      ms: (globalThis as unknown as { usable: number }).usable,
      sent: sum((each) => each.encodedBodySize),
      plain: sum((each) => each.decodedBodySize),
    };
  });
  await page.close();
  return found;
}
