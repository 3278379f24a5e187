// A page of a book, typed by hand: the unit asked, each cell understood, the proof beside it, decisions, a reload, the server away,
// reading aloud, the photo. And what it looks like.
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { faultsByAxe } from './axe';
import { openBrowser, phone, picture, type Phone } from './hand';
import { Program } from './program';
import { linnet } from './shop';
import { lacking, sideways, small } from './sound_page';

const program = new Program();
let browser: Browser;
let job: string;

beforeAll(async () => {
  await program.start();
  browser = await openBrowser();
  job = await linnet(program);
});
afterAll(async () => {
  await browser.close();
  await program.end();
});

const row = (page: Page, n: number) => page.locator('li.one').nth(n - 1);
const field = (page: Page, n: number, label: string) => row(page, n).getByLabel(label, { exact: true });
const proof = (page: Page, n: number) => row(page, n).locator('.proof');

async function sayUnit(page: Page, unit: string): Promise<void> {
  await page
    .getByRole('group', { name: 'What this page prints' })
    .locator('label')
    .filter({ hasText: unit })
    .first()
    .tap();
}
/** From the Limits page to an empty page of the book; book, page and unit said. */
async function begin(page: Page, unit: string | null = 'mm'): Promise<void> {
  await page.goto(`${program.url}#/jobs/${job}/limits`);
  await page.getByRole('link', { name: 'Type a whole page of the book' }).tap();
  await page.getByRole('button', { name: 'New page' }).tap();
  await page.getByLabel('Book', { exact: true }).fill('Linnet notes (invented)');
  await page.getByLabel('Page', { exact: true }).fill('31');
  await page.getByRole('button', { name: 'Done' }).tap();
  if (unit !== null) await sayUnit(page, unit);
}
/** The housing, the shell, the journal, and a clearance that does not follow from them. */
const bearing = [
  ['Main housing', '48.016', 'hole'],
  ['Main shell', '1.486', 'shell'],
  ['Main journal', '44.984', 'journal'],
] as const;
async function typeBearing(page: Page): Promise<void> {
  for (const [at, [what, figure, name]] of bearing.entries()) {
    if (at > 0) await page.getByRole('button', { name: 'Next row' }).tap();
    await field(page, at + 1, 'What').fill(what);
    await field(page, at + 1, 'New, from').fill(figure);
    await row(page, at + 1)
      .getByRole('button', { name: 'More', exact: true })
      .tap();
    await field(page, at + 1, 'Short name').fill(name);
    await row(page, at + 1)
      .getByRole('button', { name: 'Less' })
      .tap();
  }
  await page.getByRole('button', { name: 'Next row' }).tap();
  await field(page, 4, 'What').fill('Main clearance');
  await row(page, 4).getByRole('button', { name: 'More', exact: true }).tap();
  await field(page, 4, 'Follows from').fill('hole - 2 x shell - journal');
  await row(page, 4).getByRole('button', { name: 'Less' }).tap();
  await field(page, 4, 'New, from').fill('0.080');
}

test('the unit is asked for, each cell says what was understood, and the proof stands beside the row', async () => {
  const context = await phone(browser);
  const page = await context.newPage();
  await begin(page, null);
  await field(page, 1, 'What').fill('Main housing');
  await field(page, 1, 'New, from').fill('48.016');
  await row(page, 1).getByText('has no unit, and the unit of this page is not said').waitFor();
  await picture(page, 'sheet-unit-asked', { fullPage: true });
  await sayUnit(page, 'mm');
  await row(page, 1).getByText('= 48.016 mm').waitFor();
  await typeBearing(page);
  await proof(page, 4).getByText('makes 0.060 mm').waitFor();
  await picture(page, 'sheet-finding', { fullPage: true });
  await context.close();
});

test('a finding is put right by one key, is remembered with who and when, and can be taken back', async () => {
  const context = await phone(browser);
  const page = await context.newPage();
  await begin(page);
  await typeBearing(page);
  await proof(page, 4).getByText('rather 0.060 mm').waitFor();
  await proof(page, 4).tap();
  await picture(page, 'sheet-decide', { fullPage: true });
  await row(page, 4).getByRole('button', { name: 'Put right to 0.060 mm', exact: true }).tap();
  const said = /put right from 0\.080 mm to 0\.060 mm, JB \d{4}-\d\d-\d\d/;
  await proof(page, 4).getByText(said).waitFor();
  expect(await field(page, 4, 'New, from').inputValue(), 'what is printed stays as it is').toBe('0.080');
  await page.reload();
  await proof(page, 4).getByText(said).waitFor();
  await proof(page, 4).tap();
  await row(page, 4).getByRole('button', { name: 'Take back' }).tap();
  await proof(page, 4).getByText('rather 0.060 mm').waitFor();
  await row(page, 4).getByRole('button', { name: 'Ask', exact: true }).tap();
  await proof(page, 4).getByText('● certain').waitFor();
  await field(page, 4, 'New, from').fill('0.060');
  await proof(page, 4).getByText('No limit from this row').or(proof(page, 4).getByText('to be asked')).waitFor();
  await context.close();
});

test('the proof moves neither the focus nor the field, and an answer about an older text is dropped', async () => {
  const context = await phone(browser);
  const page = await context.newPage();
  await begin(page);
  await typeBearing(page);
  await page.getByRole('button', { name: 'Next row' }).tap();
  const below = field(page, 5, 'What');
  // The answer about 0.081 is held back until the one about 0.060 was given.
  let held: (() => void) | null = null;
  await page.route('**/api/sheet-proof', async (route) => {
    if ((route.request().postData() ?? '').includes('0.081')) await new Promise<void>((resolve) => (held = resolve));
    await route.continue();
  });
  await field(page, 4, 'New, from').fill('0.081');
  await expect.poll(() => held !== null).toBe(true);
  await field(page, 4, 'New, from').fill('0.060');
  await row(page, 4).getByText('= 0.060 mm').waitFor();
  await below.focus();
  const top = async (): Promise<number> => Math.round((await below.boundingBox())?.y ?? 0);
  const was = await top();
  (held as unknown as () => void)();
  await page.waitForTimeout(400);
  expect(await row(page, 4).locator('.proof').textContent()).not.toContain('0.081');
  await row(page, 4).getByText('= 0.060 mm').waitFor();
  await page.unroute('**/api/sheet-proof');
  // A finding about a row above the one that is typed in.
  await field(page, 4, 'New, from').evaluate((input: HTMLInputElement) => {
    input.value = '0.090';
    input.dispatchEvent(new Event('input', { bubbles: true }));
  });
  await proof(page, 4).getByText('rather 0.060 mm').waitFor();
  expect(await top()).toBe(was);
  expect(await below.evaluate((each) => each === document.activeElement)).toBe(true);
  await context.close();
});

test('with the server away the page is typed on, survives a reload, and is proof-read when the server is back', async () => {
  const context = await phone(browser);
  const page = await context.newPage();
  await begin(page);
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
  await field(page, 1, 'What').fill('Cylinder bore');
  await field(page, 1, 'New, from').fill('84.000');
  await row(page, 1).getByText('= 84.000 mm').waitFor();
  await program.kill();
  await field(page, 1, 'Wear limit').fill('84.1');
  await page.getByText('The proof is away with the server').waitFor();
  await proof(page, 1).getByText('not proof-read: the server is away').waitFor();
  await picture(page, 'sheet-away', { fullPage: true });
  await page.reload();
  await page.getByText('The proof is away with the server').waitFor();
  expect(await field(page, 1, 'Wear limit').inputValue()).toBe('84.1');
  await program.start();
  await field(page, 1, 'Wear limit').fill('84.10');
  await row(page, 1).getByText('= 84.10 mm').waitFor();
  await page.getByRole('link', { name: 'All pages' }).tap();
  await page
    .getByRole('link', { name: /Linnet notes \(invented\).*page 31/ })
    .first()
    .waitFor();
  await context.close();
});

test('the definition is chosen from drawings; that the book does not say is an answer', async () => {
  const context = await phone(browser);
  const page = await context.newPage();
  await begin(page);
  await field(page, 1, 'What').fill('Taper');
  await row(page, 1).getByLabel('Kind of part').selectOption('cylinder-bore');
  await field(page, 1, 'Wear limit').fill('0.1');
  await proof(page, 1).getByText('what of the part it is').waitFor();
  await row(page, 1)
    .getByRole('button', { name: /^What of it/ })
    .tap();
  await row(page, 1)
    .getByRole('group', { name: 'What of the part' })
    .locator('label')
    .filter({ hasText: 'taper' })
    .tap();
  await row(page, 1).getByRole('group', { name: 'How it is reckoned' }).locator('svg').first().waitFor();
  await picture(page, 'sheet-definitions', { fullPage: true });
  await row(page, 1)
    .getByRole('button', { name: /^the book does not say/ })
    .tap();
  await row(page, 1).getByRole('button', { name: 'What of it: taper: the book does not say' }).waitFor();
  await proof(page, 1)
    .getByText(/gives [3-9] limits/)
    .waitFor();
  await row(page, 1)
    .getByRole('button', { name: /^What of it/ })
    .tap();
  await row(page, 1).getByRole('button', { name: 'taper, worse of two axes' }).tap();
  await proof(page, 1).getByText('gives 1 limit').waitFor();
  await context.close();
});

test('a page is read aloud row by row; a tick holds as long as the row is what was read', async () => {
  const context = await phone(browser);
  const page = await context.newPage();
  await begin(page);
  await typeBearing(page);
  await page.getByRole('link', { name: 'Read it aloud, row by row' }).tap();
  await page.getByRole('heading', { name: 'Main housing' }).waitFor();
  await picture(page, 'sheet-aloud');
  for (const what of ['Main shell', 'Main journal']) {
    await page.getByRole('button', { name: 'Agrees with the book' }).tap();
    await page.getByRole('heading', { name: what }).waitFor();
  }
  await page.getByText('Row 3 of 4 · 2 agree').waitFor();
  await page.getByRole('button', { name: 'Put it right' }).tap();
  await field(page, 2, 'New, from').fill('1.487');
  await page.getByText('1 of 4 rows compared with the book').waitFor();
  await page.getByRole('link', { name: 'Read it aloud, row by row' }).tap();
  await page.getByRole('heading', { name: 'Main shell' }).waitFor();
  await context.close();
});

test('a photo of the page is kept with the job and stands above the fields', async () => {
  const context = await phone(browser);
  const page = await context.newPage();
  await begin(page);
  const photo = await page.screenshot({ type: 'jpeg' });
  await page.locator('input[type=file]').setInputFiles({ name: 'page.jpg', mimeType: 'image/jpeg', buffer: photo });
  const shown = page.getByRole('img', { name: 'Photo of the page' });
  await shown.waitFor();
  await expect.poll(() => shown.evaluate((img: HTMLImageElement) => img.naturalWidth)).toBeGreaterThan(100);
  const wide = (await shown.boundingBox())?.width ?? 0;
  await page.getByRole('button', { name: 'Larger' }).tap();
  expect((await shown.boundingBox())?.width ?? 0).toBeGreaterThan(wide);
  await page.getByRole('button', { name: 'Down', exact: true }).tap();
  expect(await page.locator('.frame').evaluate((frame) => frame.scrollTop)).toBeGreaterThan(0);
  await picture(page, 'sheet-photo', { fullPage: true });
  await page.reload();
  await shown.waitFor();
  await context.close();
});

test('a row is taken out and back, and another put above it; ENTER goes on', async () => {
  const context = await phone(browser, { width: 1280, height: 800 });
  const page = await context.newPage();
  await begin(page);
  await field(page, 1, 'What').fill('First');
  await field(page, 1, 'Grade').fill('A');
  await field(page, 1, 'Grade').press('Enter');
  await page.locator('li.one').nth(1).waitFor();
  await page.keyboard.type('Second');
  expect(await field(page, 2, 'What').inputValue()).toBe('Second');
  await row(page, 1).getByRole('button', { name: 'More', exact: true }).click();
  await row(page, 1).getByRole('button', { name: 'Take this row out' }).click();
  await page.getByText('Row taken out: First').waitFor();
  expect(await page.locator('li.one').count()).toBe(1);
  await page.getByRole('button', { name: 'Take back' }).click();
  expect(await field(page, 1, 'What').inputValue()).toBe('First');
  await row(page, 2).getByRole('button', { name: 'More', exact: true }).click();
  await row(page, 2).getByRole('button', { name: 'A row above this one' }).click();
  expect(await field(page, 3, 'What').inputValue()).toBe('Second');
  await context.close();
});

test('before the sheet is kept it is seen which verdicts would be others; it is kept, typed on elsewhere, and a next version says why', async () => {
  const context = await phone(browser);
  const page = await context.newPage();
  const made = (await program.post('api/example', undefined)) as { job: string };
  await page.goto(`${program.url}#/jobs/${made.job}/limits/sheet`);
  await page.getByRole('button', { name: 'New page' }).tap();
  await page.getByLabel('Book', { exact: true }).fill('Invented notes');
  await page.getByLabel('Page', { exact: true }).fill('12');
  await page.getByRole('button', { name: 'Done' }).tap();
  await sayUnit(page, 'mm');
  await field(page, 1, 'What').fill('Cylinder bore');
  await row(page, 1).getByLabel('Kind of part').selectOption('cylinder-bore');
  await row(page, 1)
    .getByRole('button', { name: /^What of it/ })
    .tap();
  await row(page, 1)
    .getByRole('group', { name: 'What of the part' })
    .locator('label')
    .filter({ hasText: 'size' })
    .tap();
  await row(page, 1)
    .getByRole('button', { name: /^the book does not say/ })
    .tap();
  await field(page, 1, 'Wear limit').fill('84.2x');
  const look = page.getByRole('button', { name: 'See what would change' });
  const keep = page.getByRole('button', { name: 'Keep this sheet in the engine' });
  await look.tap();
  await page.getByText('Row 1, Wear limit: "x" in "84.2x"').waitFor();
  expect(await keep.isDisabled()).toBe(true);
  await field(page, 1, 'Wear limit').fill('84.2');
  await page.getByText('The page was typed on: look again.').waitFor();
  await look.tap();
  await page.getByText('3 verdicts become others').waitFor();
  await keep.tap();
  await page.getByText('in the engine as invented-notes-12-').waitFor();
  const sheets = async (): Promise<{ sheets: { versions: number; limits: number }[] }> =>
    (await program.get(`api/jobs/${made.job}/sheets`)) as { sheets: { versions: number; limits: number }[] };
  expect((await sheets()).sheets).toMatchObject([{ versions: 1, limits: 1 }]);

  // Another device types it on.
  const other = await phone(browser, { who: 'MK' });
  const second = await other.newPage();
  await second.goto(`${program.url}#/jobs/${made.job}/limits/sheet`);
  await second.getByRole('button', { name: /Invented notes.*version 1/ }).tap();
  await second.getByText('in the engine as invented-notes-12-').waitFor();
  await field(second, 1, 'Wear limit').fill('84.1 mm');
  await second.getByRole('button', { name: 'See what would change' }).tap();
  await second.getByText('verdicts become others').waitFor();
  await picture(second, 'sheet-effect', { fullPage: true });
  const again = second.getByRole('button', { name: 'Keep this sheet in the engine' });
  expect(await again.isDisabled(), 'a next version says why').toBe(true);
  await second.getByLabel('Why another version').fill('misread');
  await again.tap();
  await expect.poll(async () => (await sheets()).sheets[0]?.versions).toBe(2);
  for (const fault of await faultsByAxe(second)) expect(fault).toBe('');
  await other.close();
  await context.close();
});

/** A page with everything on it, as kept in the browser, so that every look has the same. */
const full = {
  id: 'p1',
  book: 'Linnet notes (invented), the workshop book',
  edition: 'second edition',
  page: '31',
  original: 'mm',
  unit: 'both',
  rows: [
    { id: 'a', cells: { id: 'hole', what: 'Main bearing housing', new: '48.016 (1.8904)' } },
    { id: 'b', cells: { id: 'shell', what: 'Main shell', new: '1.486 mm' } },
    {
      id: 'c',
      cells: {
        id: 'journal',
        what: 'Main journal',
        kind: 'main-journal',
        characteristic: 'size',
        new: '44.984 mm',
        wear: '44.95x',
      },
    },
    { id: 'd', cells: { what: 'Main clearance', new: '0.080 mm', from: 'hole - 2 x shell - journal' } },
    {
      id: 'e',
      cells: {
        what: 'Cylinder bore',
        kind: 'cylinder-bore',
        characteristic: 'size',
        new: '84.000 mm',
        'new-max': '84.020 mm',
        wear: '84.000 mm',
      },
    },
    { id: 'f', cells: { what: 'Taper', kind: 'cylinder-bore', characteristic: 'taper', wear: '0.08', note: '1)' } },
  ],
  decisions: [
    {
      rule: 'wear-at-new',
      row: 'e',
      field: 'wear',
      printed: '84.000 mm',
      decided: 'ask',
      who: 'JB',
      when: '2031-05-04',
    },
  ],
  ticks: {},
  photo: null,
  at: 1,
};

async function look(page: Page, aloud: boolean): Promise<void> {
  await page.goto(`${program.url}#/jobs/${job}/limits/sheet?page=p1${aloud ? '&aloud=1' : ''}`);
  await page
    .locator(aloud ? '.read' : 'li.one')
    .first()
    .waitFor();
  if (aloud) return;
  await page
    .locator('.below')
    .filter({ hasText: /44[.,]984 mm/ })
    .waitFor();
  await page.locator('button.proof').first().tap();
  await row(page, 5).locator('.rest').tap();
  await row(page, 6).locator('.at-meaning button').tap();
  await row(page, 6).locator('.drawings svg').first().waitFor();
}

for (const language of ['en', 'de'] as const) {
  for (const light of ['sun', 'lamp'] as const) {
    test(`nothing scrolls sideways, keys are large, axe finds nothing: ${language}, ${light}`, async () => {
      const wrong: string[] = [];
      for (const [width, height] of [
        [320, 640],
        [360, 740],
        [700, 900],
        [740, 360],
        [1280, 800],
        [1600, 900],
      ] as const) {
        const how: Phone = { width, height, light, language };
        const context = await phone(browser, how);
        await context.addInitScript(
          ([id, text]) => {
            localStorage.setItem(`fettle.sheets.${id}`, '["p1"]');
            localStorage.setItem(`fettle.sheet.${id}.p1`, text);
          },
          [job, JSON.stringify(full)] as const,
        );
        const page = await context.newPage();
        page.on('pageerror', (error) => wrong.push(String(error)));
        for (const aloud of [false, true]) {
          await look(page, aloud);
          const name = `${aloud ? 'aloud' : 'sheet'}-${String(width)}x${String(height)}-${light}-${language}`;
          for (const each of await sideways(page)) wrong.push(`${name}: beyond the edge: ${each}`);
          for (const each of await small(page)) wrong.push(`${name}: small: ${each}`);
          if (width !== 700) for (const each of await faultsByAxe(page)) wrong.push(`${name}: ${each.slice(0, 300)}`);
          const missing = lacking.exec(await page.evaluate(() => document.body.innerText));
          if (missing !== null) wrong.push(`${name}: ${missing[0]}`);
          await picture(page, name, { fullPage: true });
        }
        await context.close();
      }
      expect(wrong).toEqual([]);
    });
  }
}
