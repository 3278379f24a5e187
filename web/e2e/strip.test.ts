// A pump engine from a few answers, taken apart with a thumb: what stripping destroys is read first, what the eye finds outranks the gauge.
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { Hand, openBrowser, phone, picture } from './hand';
import { Program } from './program';

const program = new Program();
let browser: Browser;
let context: BrowserContext;
let page: Page;
let hand: Hand;
let job: string;

interface Strip {
  readonly next: string | null;
  readonly worry: string | null;
  readonly steps: readonly { readonly step: string; readonly state: string }[];
  readonly groups: readonly { readonly kind: string; readonly step: string; readonly offset: string | null }[];
  readonly ready: readonly { readonly parts: number }[];
}
const strip = async (): Promise<Strip> => (await program.get(`api/jobs/${job}/strip`)) as Strip;
const stateOf = async (step: string): Promise<string | undefined> =>
  (await strip()).steps.find((each) => each.step === step)?.state;

beforeAll(async () => {
  await program.start();
  browser = await openBrowser();
  context = await phone(browser);
  page = await context.newPage();
  hand = new Hand(page);
}, 60000);
afterAll(async () => {
  await browser.close();
  await program.end();
});

test('a few answers make an engine; what plays no part any more is not asked', async () => {
  await page.goto(`${program.url}#/new`);
  await page.getByLabel('Name').fill('Dabchick 1');
  await page.getByText(/^\d+ parts in \d+ groups/).waitFor();
  await page.getByText(/more questions; the usual answers stand/).tap();
  await page.getByRole('group', { name: 'Lash is set by' }).waitFor();
  await hand.choose('Two-stroke or four-stroke', 'two-stroke');
  await page.getByRole('group', { name: 'Lash is set by' }).waitFor({ state: 'detached' });
  for (let left = 3; left > 0; left -= 1) {
    await page.getByRole('group', { name: 'Cylinders', exact: true }).getByRole('button').first().tap();
    await page
      .getByRole('group', { name: 'Cylinders', exact: true })
      .locator('output')
      .filter({ hasText: String(left) })
      .waitFor();
  }
  await hand.choose('Big ends', 'rolling bearings');
  await hand.choose('Intake', 'piston-controlled');
  await hand.choose('Flywheel', 'no');
  await page.getByText(/^\d+ parts in \d+ groups/).tap();
  await page.locator('label').filter({ hasText: '1 × ' }).first().waitFor();
  await picture(page, 'new-engine-answers', { fullPage: true });
  await hand.key('Keep the engine');
  await page.waitForURL(/#\/jobs\/[^/]+$/);
  job = decodeURIComponent(page.url().split('/jobs/')[1] ?? '');
  expect(job).toBe('dabchick-1');
});

test('the steps come in order, each with why, and three answers', async () => {
  await hand.follow('Take apart');
  await page.getByText('Every later position, and which side is the thrust side, hangs on it').waitFor();
  await picture(page, 'strip', { fullPage: true });
  await hand.key('Done');
  await expect.poll(() => stateOf('sides-and-ends')).toBe('done');
  await page.getByText('Nobody remembers a pipe').waitFor();
  await page.getByLabel('Note', { exact: true }).fill('no camera');
  await hand.key('Cannot');
  await page.getByText('cannot be done (no camera)').waitFor();
  // The next is a reading: it leads to the round of its part.
  await hand.follow('Read');
  await page.waitForURL(/\/round\/case-test-1/);
  await page.goBack();
});

test('a step that was missed says that it is too late', async () => {
  await page.getByRole('button', { name: /Lift the cylinder off straight/ }).tap();
  await hand.key('Done');
  await expect.poll(() => stateOf('case-pressure-test')).toBe('lost');
  await page.getByText('no longer possible: Lift the cylinder off straight; hold the piston').waitFor();
  await picture(page, 'strip-lost', { fullPage: true });
});

test('the present step of a group is seen, and clean is a tick with its time', async () => {
  await page.getByText(/^Cylinder bores: not known/).tap();
  await hand.choose('It stands at', 'oversize');
  await page.getByLabel(/^By how much/).fill('+0.25');
  await page.getByRole('button', { name: 'piston crown' }).tap();
  await hand.key('Keep the step');
  await page.getByText('Cylinder bores: +0.25 mm (piston crown)').waitFor();
  expect((await strip()).groups.find((each) => each.kind === 'cylinder-bore')?.offset).toBe('+0.25 mm');
  await page.getByRole('button', { name: /clean and dry/ }).tap();
  await expect.poll(async () => (await strip()).ready[0]?.parts).toBeGreaterThan(10);
});

test('what the eye condemns is beyond, with its photo; a test that finds nothing answers the worry', async () => {
  expect((await strip()).worry).toContain('crank not');
  await page.getByRole('link', { name: 'Seen by eye' }).last().tap();
  await page.locator('#part').selectOption('bore-1');
  await page.getByRole('button', { name: 'score that catches a nail' }).tap();
  await page.locator('#test').selectOption('nail');
  await hand.choose('What does it mean for the part?', 'condemns');
  await page.getByLabel('Where on the part').fill('exhaust side, 10 below the face');
  await page.getByLabel(/^Depth/).fill('0.090');
  await page
    .locator('input[type=file]')
    .setInputFiles({ name: 'score.png', mimeType: 'image/png', buffer: await page.screenshot() });
  await picture(page, 'by-eye-score', { fullPage: true });
  await hand.key('Keep the finding');
  await page.getByText('By eye: score that catches a nail').first().waitFor();
  await page.locator('#part').selectOption('crank');
  await page.getByRole('button', { name: 'crack', exact: true }).tap();
  await page.locator('#test').selectOption('magnetic');
  await hand.choose('What did the test say?', 'nothing found');
  await hand.key('Keep the finding');
  await expect.poll(async () => (await strip()).worry ?? '').not.toContain('crank not');
  await expect.poll(async () => (await strip()).worry ?? '').toContain('bore 1 beyond');
});
