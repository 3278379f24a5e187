// Every page on the invented example: both languages, both lights, every width. Nothing scrolls sideways, keys are large enough,
// axe is content, no word is missing.
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { Hand, openBrowser, phone, picture, type Phone } from './hand';
import { faultsByAxe } from './axe';
import { lacking, sideways, small } from './sound_page';
import { Program } from './program';
import { act, head, linnet, setOnMicrometer } from './shop';

const program = new Program();
let browser: Browser;

/** A page: its name, its address, and what must be there before one looks. */
type Place = readonly [name: string, address: string, there: string];
let places: readonly Place[] = [];

interface Engine {
  readonly groups: readonly { readonly kind: string; readonly parts: readonly { readonly id: string }[] }[];
}
interface Verdicts {
  readonly rows: readonly { readonly part: string; readonly limit: string; readonly state: string }[];
}
interface Gauges {
  readonly gauges: readonly { readonly id: string; readonly sort: string }[];
}

beforeAll(async () => {
  await program.start();
  browser = await openBrowser();
  const context = await phone(browser);
  const page = await context.newPage();
  await page.goto(program.url);
  await page.getByRole('heading', { name: 'Three steps to the first reading' }).waitFor();
  await picture(page, 'bench-empty-360x740-sun', { fullPage: true });
  await page.getByRole('button', { name: 'Take the example in' }).click();
  await page.waitForURL(/#\/jobs\/[^/]+$/);
  const job = decodeURIComponent(page.url().split('/jobs/')[1] ?? '');
  await context.close();
  const engine = (await program.get(`api/jobs/${job}`)) as Engine;
  const verdicts = (await program.get(`api/jobs/${job}/verdicts`)) as Verdicts;
  const kind = engine.groups[0]?.kind ?? '';
  const part = engine.groups[0]?.parts[0]?.id ?? '';
  const gauges = (await program.get(`api/jobs/${job}/gauges?for=${part}`)) as Gauges;
  const gauge = gauges.gauges.find((each) => each.sort === 'comparison')?.id ?? '';
  const close = verdicts.rows.find((row) => row.state === 'too-close');
  if (close === undefined) throw new Error('the example has a bore that is too close to call');
  const set = `#/jobs/${job}/set/${part}?gauge=${gauge}`;
  const fold = encodeURIComponent(`${close.part}/${close.limit}`);
  places = [
    ['bench', '#/', '.go, .row'],
    ['new-engine', '#/new', '.stepper'],
    ['engine', `#/jobs/${job}`, '.row'],
    ['engine-open', `#/jobs/${job}?open=${kind}`, '.parts .row'],
    ['set-which', `#/jobs/${job}/set/${part}`, '.card'],
    ['set-add', `#/jobs/${job}/set/${part}?step=add&sort=gauge`, '#preset'],
    ['set-same', `${set}&step=rods`, '.card, h2'],
    ['set-rods', `${set}&step=rods&whole=1`, 'h2'],
    ['set-master', `${set}&step=master&whole=1`, 'h2'],
    ['set-zero', `${set}&step=zero&whole=1`, '.boxes'],
    ['set-proof', `${set}&step=sense&whole=1`, 'h2'],
    ['verdict', `#/jobs/${job}/verdict`, '.verdict'],
    ['verdict-open', `#/jobs/${job}/verdict?open=${fold}`, '.fold'],
    ['limits', `#/jobs/${job}/limits`, '#definition'],
    ['strip', `#/jobs/${job}/strip`, 'ol.list li'],
    ['by-eye', `#/jobs/${job}/by-eye`, '#part optgroup'],
    ['done', `#/jobs/${job}/done`, 'ol.list li'],
    ['devices', '#/devices', 'h2'],
    ['pair', '#/pair/ABCD-EFGH', 'form'],
  ];
}, 60000);
afterAll(async () => {
  await browser.close();
  await program.end();
});

async function open(page: Page, [, address, there]: Place): Promise<void> {
  await page.goto(program.url + address);
  await page.locator(there).first().waitFor({ state: 'attached', timeout: 60000 });
  await page.evaluate(() => document.fonts.ready);
}

/** A device with its page; faults of the page's script are collected. */
async function paged(how: Phone): Promise<{ page: Page; context: BrowserContext; faults: string[] }> {
  const context = await phone(browser, how);
  const page = await context.newPage();
  const faults: string[] = [];
  page.on('pageerror', (error) => faults.push(String(error)));
  page.on('console', (line) => {
    if (line.type() === 'error' && !line.text().includes('Failed to load resource')) faults.push(line.text());
  });
  return { page, context, faults };
}

test('the same limit typed a second time is told, and stands beside the first only on purpose; a kind is found by its name', async () => {
  const { page, context } = await paged({});
  const job = await linnet(program);
  const limits = async (): Promise<number> =>
    ((await program.get(`api/jobs/${job}`)) as { limits: readonly unknown[] }).limits.length;
  const before = await limits();
  await page.goto(`${program.url}#/jobs/${job}/limits`);
  await page.locator('#definition').selectOption('size-1');
  await page.getByLabel('Book').fill('Linnet notes (invented)');
  await page.getByLabel('Page').fill('15');
  await page.getByRole('group', { name: 'Unit as printed' }).locator('label').first().tap();
  await page.getByLabel(/^Figure as printed/).fill('78.110');
  const side = page.getByRole('group', { name: 'Which side' });
  if ((await side.count()) > 0) await side.locator('label').filter({ hasText: 'at most' }).tap();
  await page.getByText('There is one already: at most 78.100 mm').waitFor();
  const keep = page.getByRole('button', { name: 'Keep the limit' });
  expect(await keep.isDisabled()).toBe(true);
  await picture(page, 'limits-twice', { fullPage: true });
  await page.getByRole('button', { name: 'Keep both' }).tap();
  await keep.tap();
  await expect.poll(limits).toBe(before + 1);

  await page.goto(`${program.url}#/new`);
  await page.getByText('Only the groups that I pick').tap();
  await page.locator('details summary').filter({ hasText: 'more kinds of parts' }).tap();
  expect(await page.getByText('Not yet on the page').count(), 'the page reads every kind').toBe(0);
  await page.getByText('Valves, seats, guides and springs').waitFor();
  await page.getByRole('searchbox', { name: 'Find a kind of part' }).fill('guide');
  await page.getByRole('group', { name: 'Valve guides' }).waitFor();
  await picture(page, 'new-engine-found', { fullPage: true });
  await context.close();
});

test('as last time: one key also where no limit says the size', async () => {
  const { page, context } = await paged({});
  const made = (await program.post('api/jobs', {
    ...head(),
    name: 'Wren 1',
    engine: 'single, invented',
    shown_unit: 'mm',
    decimal_mark: 'point',
    groups: [{ kind: 'cylinder-bore', count: 1 }],
  })) as { job: string };
  await act(program, made.job, [...setOnMicrometer(['0', '0', '0'])]);
  const hand = new Hand(page);
  await page.goto(`${program.url}#/jobs/${made.job}/set/bore-1?gauge=G2&step=rods`);
  await hand.key('Same: find the zero');
  for (let n = 0; n < 3; n += 1) {
    await hand.key('0');
    await hand.key('ENTER');
  }
  await hand.key('Keep the setting');
  await page.locator('.keypad').waitFor();
  expect(JSON.stringify(await program.get(`api/jobs/${made.job}/gauges?for=bore-1`))).toContain('G2-2');
  await context.close();
});

for (const language of ['en', 'de'] as const) {
  for (const [width, height] of [
    [320, 640],
    [360, 740],
    [740, 360],
    [1280, 800],
  ] as const) {
    test(`nothing scrolls sideways, keys are large, no word is missing: ${language}, ${String(width)} wide`, async () => {
      const { page, context, faults } = await paged({ width, height, language });
      const wrong: string[] = [];
      for (const place of places) {
        await open(page, place);
        for (const each of await sideways(page)) wrong.push(`${place[0]}: beyond the edge: ${each}`);
        for (const each of await small(page)) wrong.push(`${place[0]}: small: ${each}`);
        const missing = lacking.exec(await page.evaluate(() => document.body.innerText));
        if (missing !== null) wrong.push(`${place[0]}: ${missing[0]}`);
      }
      expect(wrong).toEqual([]);
      expect(faults).toEqual([]);
      await context.close();
    });
  }
}

for (const light of ['sun', 'lamp'] as const) {
  for (const language of ['en', 'de'] as const) {
    test(`axe finds nothing: ${light}, ${language}`, async () => {
      const { page, context } = await paged({ light, language });
      const found: string[] = [];
      for (const place of places) {
        await open(page, place);
        for (const fault of await faultsByAxe(page)) found.push(`${place[0]}: ${fault.slice(0, 300)}`);
      }
      expect(found).toEqual([]);
      await context.close();
    });
  }
}

/** Where a hand types, all keys are on the screen, also with the browser's bars shown and on its side. */
for (const [width, height] of [
  [360, 740],
  [360, 560],
  [740, 360],
] as const) {
  test(`all keys of a keypad are on the screen: ${String(width)} x ${String(height)}`, async () => {
    for (const language of ['en', 'de'] as const) {
      const { page, context } = await paged({ width, height, language });
      for (const place of places.filter(([name]) => name === 'set-zero' || name === 'set-proof')) {
        await open(page, place);
        const box = await page.locator('.keypad').boundingBox();
        expect((box?.y ?? 9999) + (box?.height ?? 0), `${place[0]}, ${language}`).toBeLessThanOrEqual(height);
      }
      await context.close();
    }
  });
}

test('pictures of every page', async () => {
  for (const [width, height] of [
    [360, 740],
    [360, 560],
    [740, 360],
    [1280, 800],
  ] as const) {
    for (const light of ['sun', 'lamp'] as const) {
      const how = { width, height, light, language: light === 'lamp' ? 'de' : 'en' } as const;
      const { page, context } = await paged(how);
      for (const place of places) {
        await open(page, place);
        await picture(page, `${place[0]}-${String(width)}x${String(height)}-${light}`, { fullPage: true });
      }
      await context.close();
    }
  }
});
