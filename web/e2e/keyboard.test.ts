// From an empty store to a verdict that somebody takes, by keyboard alone: no press of a pointer anywhere in this file.
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, onTestFailed, test } from 'vitest';
import { openBrowser } from './hand';
import { Program } from './program';

const program = new Program();
let browser: Browser;
beforeAll(async () => {
  await program.start();
  browser = await openBrowser();
});
afterAll(async () => {
  await browser.close();
  await program.end();
});

/** What has the focus, as a screen reader would name it. */
const focused = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const at = document.activeElement;
    if (at === null || at === document.body) return '';
    const label =
      at instanceof HTMLInputElement || at instanceof HTMLSelectElement ? at.labels?.[0]?.textContent : null;
    return (at.getAttribute('aria-label') ?? label ?? at.textContent).trim().replace(/\s+/g, ' ');
  });

/** Tab until that has the focus. What cannot be reached so is out of reach. */
async function tabTo(page: Page, name: string | RegExp): Promise<void> {
  const seen: string[] = [];
  for (let count = 0; count < 150; count += 1) {
    await page.keyboard.press('Tab');
    const now = await focused(page);
    if (typeof name === 'string' ? now === name : name.test(now)) {
      const outlined = await page.evaluate(() => {
        const at = document.activeElement;
        const shown = at?.closest('label') ?? at;
        return at === null || shown === null
          ? ''
          : getComputedStyle(at).outlineStyle + getComputedStyle(shown).outlineStyle;
      });
      expect(outlined, `the focus on ${now} is seen`).toContain('solid');
      return;
    }
    seen.push(now);
  }
  throw new Error(`the keyboard does not reach ${String(name)}; it met: ${[...new Set(seen)].join(' | ')}`);
}
async function press(page: Page, name: string | RegExp): Promise<void> {
  await tabTo(page, name);
  await page.keyboard.press('Enter');
}
const seen = (page: Page, words: string | RegExp): Promise<void> => page.getByText(words).first().waitFor();
async function choose(page: Page, label: string, option: string): Promise<void> {
  await tabTo(page, label);
  await page.keyboard.type(option, { delay: 5 });
  await page.keyboard.press('Enter').catch(() => undefined);
}
async function fill(page: Page, label: string | RegExp, text: string): Promise<void> {
  await tabTo(page, label);
  await page.keyboard.type(text);
}

test('from an empty store to a verdict that somebody takes, by keyboard alone', async () => {
  const context = await browser.newContext({ viewport: { width: 360, height: 740 }, locale: 'en-GB' });
  context.setDefaultTimeout(15000);
  onTestFailed(async () => {
    const page = context.pages()[0];
    if (page !== undefined) console.log(page.url(), await page.evaluate(() => document.body.innerText));
  });
  const page = await context.newPage();
  await page.goto(program.url);
  await seen(page, 'Whose hands?');
  await page.keyboard.type('JB');
  await page.keyboard.press('Enter');

  // The first step: the engine.
  await seen(page, 'Three steps to the first reading');
  await press(page, 'Begin: name the engine');
  await seen(page, 'What is measured');
  await page.keyboard.type('Linnet 4');
  await tabTo(page, /^The whole engine/);
  await page.keyboard.press('ArrowDown');
  await page.getByRole('group', { name: 'Cylinder bores' }).waitFor();
  await press(page, 'Pistons: one less');
  await press(page, 'Keep the engine');

  // The second: a gauge and its master, each named once.
  await seen(page, 'Step 2 of 3');
  await press(page, 'Set a gauge');
  await press(page, 'Name the gauge');
  await page.locator('#preset option').nth(3).waitFor({ state: 'attached' });
  await choose(page, 'Which sort', 'dial bore gauge, 0.001');
  await fill(page, 'One turn of the needle', '0.2 mm');
  await page.keyboard.press('Enter');
  await seen(page, 'Which way did the needle go?');
  await press(page, '↻ clockwise');
  await seen(page, 'To which size?');
  await page.locator('input:focus').waitFor();
  await page.keyboard.type('78.000');
  await page.keyboard.press('Enter');
  await seen(page, 'for 78.000 mm');
  await press(page, 'Next');
  await press(page, 'Name the master');
  await page.locator('#preset option').nth(3).waitFor({ state: 'attached' });
  await choose(page, 'Which sort', 'outside micrometer 75');
  await fill(page, 'The standard is marked', '75.000');
  await fill(page, 'The micrometer shows on it', '75.002');
  await page.keyboard.press('Enter');
  await seen(page, 'Really set to, mm');
  await press(page, 'Next');
  await seen(page, 'Zero three times');
  for (const zero of ['0', '1', '0']) {
    await page.keyboard.type(zero);
    await page.keyboard.press('Enter');
  }
  await seen(page, 'The zeros agree.');
  await press(page, 'Next');
  const proof = await page.getByText('The needle should stand').textContent();
  const divisions = /stand (?:at )?(\d+)/.exec(proof ?? '')?.[1];
  if (divisions === undefined) throw new Error(`no divisions in the proof: ${String(proof)}`);
  await page.keyboard.type(divisions);
  await page.keyboard.press('Enter');
  await page.locator('[role="status"].said').waitFor();
  await press(page, 'Keep the setting');

  await page.locator('.keypad').waitFor();
  const kept = JSON.stringify(await program.get('api/jobs/linnet-4/gauges?for=bore-1'));
  expect(kept, 'the zeros as they were typed').toContain('zeros 0, 1 ↺, 0');

  // The third: a bore, place by place, and the look at the zero that closes its round.
  await page.locator('.keypad').waitFor();
  for (const text of ['71', '31', '18', '12', '12', '16', '28', '60']) {
    const before = await page.locator('.words b').textContent();
    await page.keyboard.type(text);
    await page.locator('.figure[data-state="understood"]').waitFor();
    await page.keyboard.press('Enter');
    await page.waitForFunction((old) => document.querySelector('.words b')?.textContent !== old, before);
  }
  // What the round asks for at its end: the zero is read, temperatures are not known.
  // Which of the three comes first depends on what else waits to be read with this setting.
  const closed = page.getByText('This round is closed').first();
  for (let count = 0; count < 8 && !(await closed.isVisible()); count += 1) {
    await page.locator('.kept:not(.open)').waitFor();
    await page.waitForTimeout(500);
    const now = await page.evaluate(() => document.body.innerText);
    if (now.includes('Back on the master')) {
      await page.keyboard.type('1');
      await page.keyboard.press('Enter');
    } else if (/(?:Part|Master), °C/.test(now)) await press(page, 'Skip');
    else if (now.includes('That was the last part')) await press(page, 'That was the last part: close with the zero');
  }
  await closed.waitFor();

  // A limit, typed in from where "not judged" leads; then the verdict and whose it is.
  await page.goto(`${program.url}#/jobs/linnet-4/verdict`);
  await seen(page, 'Not judged');
  await press(page, 'Type limits in');
  await page.locator('#definition').waitFor();
  await fill(page, 'Book', 'Linnet notes (invented)');
  await fill(page, 'Page', '14');
  await choose(page, 'What is limited', 'largest size at the stations');
  await tabTo(page, 'at most');
  await page.keyboard.press('Space');
  await tabTo(page, 'millimetre');
  await page.keyboard.press('Space');
  await fill(page, /^Figure as printed/, '78.100');
  await press(page, 'Keep the limit');
  await seen(page, 'at most 78.100 mm');
  await press(page, 'Verdicts');
  await seen(page, /Bore 1 may go back|Bore 1/);
  await press(page, /^Bore 1 · largest size/);
  await press(page, 'JB takes it: within');
  await page.locator('.taken').filter({ hasText: 'JB takes it' }).waitFor();

  // And back again: what was done can be taken back.
  await press(page, 'Take back');
  await page.locator('.taken').waitFor({ state: 'detached' });
  await context.close();
});
