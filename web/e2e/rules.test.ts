// Rules of thumb beside the limits of a book: closed, apart, picked one by one, each with a yes of its own; and what was accepted says so.
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { faultsByAxe } from './axe';
import { openBrowser, phone, picture } from './hand';
import { Program } from './program';
import { act, linnet } from './shop';

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

interface Engine {
  readonly limits: readonly { readonly id: string; readonly origin: string; readonly rule_of_thumb: boolean }[];
}
const limitsOf = async (job: string): Promise<Engine['limits']> =>
  ((await program.get(`api/jobs/${job}`)) as Engine).limits;

async function openLimits(page: Page, job: string): Promise<void> {
  await page.goto(`${program.url}#/jobs/${job}/limits`);
  await page.locator('#definition').waitFor({ state: 'attached' });
  await page.locator('details.thumb').waitFor();
}

test('one is picked, confirmed and kept with its sign; the others stay offers', async () => {
  const job = await linnet(program);
  const context = await phone(browser);
  const page = await context.newPage();
  await openLimits(page, job);
  const rules = page.locator('details.thumb');
  const pick = rules.getByRole('button', { name: 'Use this one' });
  expect(await pick.first().isVisible(), 'closed by default').toBe(false);
  await rules.locator('summary').tap();
  await page.getByText("None of these is a maker's figure").waitFor();
  const before = await limitsOf(job);
  expect(before.some((each) => each.rule_of_thumb)).toBe(false);
  const offers = await rules.locator('li').count();
  expect(await pick.count(), 'what lacks a size cannot be picked').toBe(offers - 1);
  expect(await rules.getByText('first state the depths').isVisible()).toBe(true);

  const wear = rules.getByRole('listitem', { name: /wear of a bore/ });
  await wear.getByRole('button', { name: 'Use this one' }).tap();
  const confirm = rules.getByRole('alert');
  expect(await confirm.textContent()).toContain("This is no maker's figure.");
  await picture(page, 'limits-thumb-confirm', { fullPage: true });
  expect(await limitsOf(job), 'the first tap keeps nothing').toEqual(before);
  await confirm.getByRole('button', { name: 'Leave it' }).tap();
  expect(await confirm.count()).toBe(0);
  expect(await limitsOf(job)).toEqual(before);

  await wear.getByRole('button', { name: 'Use this one' }).tap();
  await confirm.getByRole('button', { name: 'JB accepts it' }).tap();
  await page.getByText('† at most 0.078 mm', { exact: true }).waitFor();
  const after = await limitsOf(job);
  expect(after.length).toBe(before.length + 1);
  expect(after.filter((each) => each.rule_of_thumb).map((each) => each.origin)).toEqual([
    '† rule of thumb (TM 10-3930-647-14&P ix175 (W-11)), accepted by JB',
  ]);
  await page.getByText('† rule of thumb (TM 10-3930-647-14&P ix175 (W-11)), accepted by JB').waitFor();
  await expect.poll(() => rules.locator('li').count(), { message: 'it is no offer any more' }).toBe(offers - 1);
  await picture(page, 'limits-thumb-accepted', { fullPage: true });

  await page.getByRole('button', { name: 'Take back' }).tap();
  await expect.poll(async () => (await limitsOf(job)).length).toBe(before.length);
  await expect.poll(() => rules.locator('li').count(), { message: 'taken back, it is offered again' }).toBe(offers);
  await context.close();
});

test('what is offered no longer is refused, and the page says why', async () => {
  const job = await linnet(program);
  const context = await phone(browser);
  const page = await context.newPage();
  await openLimits(page, job);
  const rules = page.locator('details.thumb');
  await rules.locator('summary').tap();
  const wear = rules.getByRole('listitem', { name: /wear of a bore/ });
  await wear.getByRole('button', { name: 'Use this one' }).tap();
  const before = (await limitsOf(job)).length;
  // Somebody else is quicker.
  await act(program, job, [
    {
      act: 'limit',
      limit: 'elsewhere',
      kind: 'cylinder-bore',
      definition: 'wear-1',
      role: 'service',
      side: 'at-most',
      bound: '0.078 mm',
      thumb: 'bore-wear',
    },
  ]);
  await rules.getByRole('alert').getByRole('button', { name: 'JB accepts it' }).tap();
  await page.getByText('is not offered the rule of thumb').waitFor();
  expect((await limitsOf(job)).length, 'refused, and nothing kept').toBe(before + 1);
  await expect.poll(() => wear.count()).toBe(0);
  await context.close();
});

const looks = [
  ['sun', 360, 'en'],
  ['lamp', 360, 'de'],
  ['sun', 320, 'de'],
  ['lamp', 1280, 'en'],
] as const;

test.each(looks)(
  'in the light of the %s at %i wide, in %s: nothing sideways, keys large enough, axe content',
  async (light, width, language) => {
    const job = await linnet(program);
    const context = await phone(browser, { width, height: width === 1280 ? 800 : 740, light, language });
    const page = await context.newPage();
    await openLimits(page, job);
    const rules = page.locator('details.thumb');
    await picture(page, `limits-thumb-closed-${String(width)}-${light}`, { fullPage: true });
    await rules.locator('summary').tap();
    await rules
      .getByRole('button', { name: /Use this one|Diese nehmen/ })
      .first()
      .tap();
    await rules.getByRole('alert').waitFor();
    await picture(page, `limits-thumb-open-${String(width)}-${light}`, { fullPage: true });
    expect(await faultsByAxe(page)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBe(0);
    const low = await rules
      .locator('button, summary')
      .evaluateAll((all) => all.map((each) => each.getBoundingClientRect().height).filter((each) => each < 47.5));
    expect(low).toEqual([]);
    await context.close();
  },
);
