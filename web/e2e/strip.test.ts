// A pump engine from a few answers, taken apart with a thumb: what stripping destroys is read first, what the eye finds outranks the gauge.
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { Hand, openBrowser, phone, picture } from './hand';
import { Program } from './program';
import { act } from './shop';

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
  await page.getByText('no longer possible: Lift the cylinder off straight; hold the piston').first().waitFor();
  await picture(page, 'strip-lost', { fullPage: true });
});

test('the present step of a group is seen, and clean is a tick with its time', async () => {
  await page.getByText(/^Cylinder bores: not known/).tap();
  await hand.choose('It stands at', 'standard');
  await hand.key('Keep the step');
  await page.locator('summary').filter({ hasText: 'Cylinder bores: standard' }).tap();
  await page.getByText(/^Pistons: not known/).tap();
  await hand.choose('It stands at', 'oversize');
  await page.getByLabel(/^By how much/).fill('+0.25');
  await page.getByRole('button', { name: 'piston crown' }).tap();
  await hand.key('Keep the step');
  await page.locator('summary').filter({ hasText: 'Pistons: +0.25 mm (piston crown)' }).waitFor();
  expect((await strip()).groups.find((each) => each.kind === 'piston')?.offset).toBe('+0.25 mm');
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

/** A figure of the book, as the page of limits would send it. */
const bound = (
  kind: string,
  definition: string,
  side: 'at-most' | 'at-least',
  figure: string,
): Record<string, unknown> => ({
  act: 'limit',
  limit: `${kind}-${definition}-${side}`,
  kind,
  definition,
  role: 'service',
  side,
  bound: figure,
  book: 'Dabchick 1 leaflet (invented)',
  page: '4',
});

/** Reads places one after the other; a gauge is taken to hand where the page has none that suits. */
async function readAll(part: string, gauge: string, figures: readonly string[]): Promise<void> {
  await page.goto(`${program.url}#/jobs/${job}/round/${part}`);
  await page.locator('.no-gauge, .keypad').first().waitFor();
  for (const figure of figures) {
    if ((await page.locator('.keypad').count()) === 0) {
      await hand.follow('Set a gauge');
      await hand.key(`${gauge}: take it to hand`);
      await page.locator('.keypad').waitFor();
    }
    await hand.read(figure);
  }
  await hand.saved();
}

interface Verdicts {
  readonly rows: readonly {
    readonly part: string;
    readonly limit: string;
    readonly state: string;
    readonly figures: string;
  }[];
}

test('the bore is within by its size and beyond by eye; the ports are told in degrees', async () => {
  await act(program, job, [
    bound('cylinder-bore', 'size-1', 'at-most', '56.080 mm'),
    bound('cylinder-bore', 'oor-1', 'at-most', '0.030 mm'),
    bound('port', 'port-opens', 'at-least', '80 °'),
    bound('port', 'port-duration', 'at-most', '195 °'),
    { act: 'gauge', gauge: 'mic', preset: 'outside-micrometer-50-75-mm', reads: '50.000 mm', on_standard: '50.000 mm' },
    { act: 'gauge', gauge: 'G1', preset: 'dial-bore-gauge-0-01-mm', pressed_in: 'clockwise' },
    {
      act: 'setting',
      setting: 'G1-1',
      gauge: 'G1',
      master: 'mic',
      wanted: '56.000 mm',
      set: '56.000 mm',
      zeros: ['0', '0', '0'],
    },
  ]);
  // The hand goes down the thrust side, turns the gauge, and up along the pin; half a division has its key.
  await page.goto(`${program.url}#/jobs/${job}/round/bore-1`);
  await page.locator('.keypad').waitFor();
  for (const needle of ['5½', '6', '1', '1', '1', '1', '3½', '4']) {
    await hand.digits(needle.replace('½', ''));
    if (needle.endsWith('½')) await hand.key('half a division');
    await hand.understood();
    await hand.key('ENTER');
  }
  await hand.saved();
  await picture(page, 'dabchick-bore', { fullPage: true });
  for (const [port, depth] of [
    ['exhaust-port-1', '26.5'],
    ['transfer-port-1', '38.0'],
  ] as const) {
    await readAll(port, 'caliper', [depth, '0', '50.6', '100']);
  }
  const verdicts = (await program.get(`api/jobs/${job}/verdicts`)) as Verdicts;
  const measured = (part: string, limit: string): number => {
    const row = verdicts.rows.find((each) => each.part === part && each.limit === limit);
    return Number(/as measured ([\d.]+)/.exec(row?.figures ?? '')?.[1]);
  };
  // The script wants the ports within a tenth of a degree.
  expect(measured('bore-1', 'cylinder-bore-size-1-at-most')).toBe(56.06);
  expect(measured('exhaust-port-1', 'port-port-opens-at-least')).toBeCloseTo(85.4, 1);
  expect(measured('exhaust-port-1', 'port-port-duration-at-most')).toBeCloseTo(189.2, 1);
  expect(measured('transfer-port-1', 'port-port-opens-at-least')).toBeCloseTo(113.2, 1);
  expect(measured('transfer-port-1', 'port-port-duration-at-most')).toBeCloseTo(133.6, 1);
  await page.goto(`${program.url}#/jobs/${job}/verdict`);
  await page
    .getByText(/bore 1 is beyond|bore 1.*beyond/i)
    .first()
    .waitFor();
  await picture(page, 'dabchick-verdict', { fullPage: true });
}, 60000);
