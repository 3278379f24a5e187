import { faultsByAxe } from './axe';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { Hand, openBrowser, phone, picture } from './hand';
import { Program } from './program';
import { linnet } from './shop';

const program = new Program();
let browser: Browser;
let job: string;

beforeAll(async () => {
  await program.start();
  browser = await openBrowser();
  job = await linnet(program, 4);
});
afterAll(async () => {
  await browser.close();
  await program.end();
});

const sizes = [
  [360, 740],
  [360, 560],
  [740, 360],
  [320, 640],
  [1280, 800],
] as const;

describe.each(['sun', 'lamp'] as const)('in the light of the %s', (light) => {
  test.each(sizes)(
    'the round at %i x %i: nothing found by axe, nothing outside the screen, keys as large as a glove needs',
    async (width, height) => {
      const language = width === 320 ? 'de' : 'en';
      const context = await phone(browser, { width, height, light, language });
      const page = await context.newPage();
      await page.goto(`${program.url}#/jobs/${job}/round/bore-2`);
      await page.locator('.keypad').waitFor();
      const hand = new Hand(page);
      await hand.digits('71');
      await hand.understood();
      const name = (what: string): string => `round-${what}-${String(width)}x${String(height)}-${light}`;
      await picture(page, name('typing'));
      expect(await faultsByAxe(page)).toEqual([]);

      const said = await page.locator('.number').evaluate((field) => {
        const below = field.querySelector('.understood')?.getBoundingClientRect();
        const whole = field.getBoundingClientRect();
        return below === undefined
          ? 'nothing'
          : below.top >= whole.top && below.bottom <= whole.bottom
            ? 'seen'
            : 'cut off';
      });
      expect(said, 'what was understood').toBe('seen');

      const outside = await page.evaluate(() => ({
        wide: document.documentElement.scrollWidth - innerWidth,
        high: document.documentElement.scrollHeight - innerHeight,
      }));
      expect(outside).toEqual({ wide: 0, high: 0 });
      const edges = async (what: string): Promise<DOMRect> =>
        page.locator(what).evaluate((each) => each.getBoundingClientRect().toJSON() as DOMRect);
      expect((await edges('.understood')).bottom).toBeLessThanOrEqual((await edges('.number')).bottom);
      const keys = await page
        .locator('.keypad button')
        .evaluateAll((all) =>
          all
            .map((each) => each.getBoundingClientRect())
            .map(({ top, bottom, left, right }) => ({ top, bottom, left, right })),
        );
      for (const key of keys) {
        expect(Math.round(key.bottom - key.top)).toBeGreaterThanOrEqual(height <= 640 ? 56 : height < 740 ? 60 : 64);
        expect(key.bottom).toBeLessThanOrEqual(height);
        for (const other of keys) {
          if (other === key) continue;
          const apart = Math.max(
            other.left - key.right,
            key.left - other.right,
            other.top - key.bottom,
            key.top - other.bottom,
          );
          expect(Math.round(apart)).toBeGreaterThanOrEqual(4);
        }
      }

      // A question, and each sheet: nothing moves under the hand.
      const where = async (): Promise<string> =>
        JSON.stringify(
          await page
            .locator('.keypad button, .number, .line')
            .evaluateAll((all) =>
              all.map((each) =>
                Object.values(each.getBoundingClientRect().toJSON() as Record<string, number>).map(Math.round),
              ),
            ),
        );
      const still = await where();
      for (const sheet of ['note', 'part', 'options', 'how'] as const) {
        const names = {
          note: /^(Note|Notiz)$/,
          part: /whole part|Ganzes Teil/,
          options: /^(Options|Einstellungen)$/,
          how: /How to measure|Wie hier gemessen/,
        };
        await page.getByRole('button', { name: names[sheet] }).tap();
        await picture(page, name(sheet));
        expect(await where()).toBe(still);
        expect(await faultsByAxe(page)).toEqual([]);
        if (sheet === 'note') await page.getByRole('button', { name: names.note }).tap();
        else await page.getByRole('button', { name: /^(Close|Schließen)$/ }).tap();
      }
      await page.getByRole('button', { name: /Needle|Zeiger/ }).tap();
      await hand.understood();
      await picture(page, name('other-side'));
      expect(await where()).toBe(still);
      await context.close();
    },
  );
});
