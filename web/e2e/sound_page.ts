import type { Page } from 'playwright-core';

/** What reaches beyond the right edge. */
export const sideways = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    document.documentElement.scrollWidth > innerWidth
      ? [...document.querySelectorAll('body *')]
          .filter((each) => each.getBoundingClientRect().right > innerWidth + 0.5)
          .map((each) => `${each.tagName}.${each.className} ${each.textContent.trim().slice(0, 40)}`)
          .slice(0, 5)
      : [],
  );
/** Keys, fields and links that a glove misses: less than 48 either way. Links inside a sentence are read, not hit. */
export const small = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll('button, select, summary, a.key, a.row, input:not([type=radio]), label.key')]
      .filter((each) => each.checkVisibility())
      .map((each) => ({ box: each.getBoundingClientRect(), each }))
      .filter(({ box }) => box.height < 47.5 || box.width < 40)
      .map(
        ({ box, each }) =>
          `${each.tagName} "${each.textContent.trim().slice(0, 30)}" ${Math.round(box.width)}x${Math.round(box.height)}`,
      ),
  );

/** A word that is missing, a name that was not filled in. */
export const lacking = /.*(?:undefined|\[object|\{[a-z_]+\}|\bnull$).*/;
