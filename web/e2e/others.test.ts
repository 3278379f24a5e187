import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { Hand, openBrowser, phone, picture } from './hand';
import { Program } from './program';
import { linnet, places } from './shop';

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

async function open(
  part: string,
  who: string,
  query = '',
): Promise<{ page: Page; hand: Hand; close: () => Promise<void> }> {
  const context = await phone(browser, { who });
  const page = await context.newPage();
  await page.goto(`${program.url}#/jobs/${job}/round/${part}${query}`);
  await page.locator('.keypad').waitFor();
  return { page, hand: new Hand(page), close: leaving(context, page) };
}
/** As whoever puts the phone away: the page says that it goes, and the part is free. */
function leaving(context: BrowserContext, page: Page): () => Promise<void> {
  return async () => {
    // Of the words in flight the one without a part: an earlier "I am here" answered is not yet "gone".
    const said = page.waitForResponse(
      (answer) =>
        answer.url().endsWith('/present') && !('part' in (answer.request().postDataJSON() as Record<string, unknown>)),
    );
    await page.goto(`${program.url}#/`);
    await said;
    await context.close();
  };
}

async function openBusy(part: string, who: string): Promise<Awaited<ReturnType<typeof open>>> {
  const context = await phone(browser, { who });
  const page = await context.newPage();
  await page.goto(`${program.url}#/jobs/${job}/round/${part}`);
  return { page, hand: new Hand(page), close: leaving(context, page) };
}

const all = ['71', '31', '18', '12', '12', '16', '28', '60'];

test('one calls out, another types: the reading carries both names, and what was read is spoken', async () => {
  const { page, hand, close } = await open('bore-1', 'JB');
  await page.evaluate(() => {
    const said: string[] = [];
    Object.assign(globalThis, { said });
    speechSynthesis.speak = (words) => void said.push(words.text);
  });
  await page.getByRole('button', { name: 'Options' }).tap();
  await page.getByRole('button', { name: 'Speak readings back' }).tap();
  await page.getByLabel('Read by').fill('AK');
  await page.getByRole('button', { name: 'Keep' }).tap();
  await page.getByText('AK reads, JB types').waitFor();
  for (const text of all) await hand.read(text);
  await hand.saved();
  const read = await places(program, job, 'bore-1');
  expect(read.map((place) => place.readings.map((each) => each.who))).toEqual(all.map(() => ['AK']));
  const said = await page.evaluate(() => (globalThis as unknown as { said: string[] }).said);
  expect(said[0]).toBe('71 anticlockwise. MIDDLE · thrust');
  await close();
});

test('a second reading sees nothing of the first until it is done', async () => {
  const { page, hand, close } = await open('bore-1', 'OD', '?second=1');
  await hand.waitLit('TOP · thrust');
  expect(await page.locator('.squares').textContent()).toBe('□□□□□□□□');
  await page.getByRole('button', { name: /whole part/ }).tap();
  expect(await page.locator('.sheet.part').textContent()).not.toMatch(/78\.\d/);
  await page.getByRole('button', { name: 'Close' }).tap();
  for (const text of all.slice(0, 7)) await hand.read(text);
  await hand.waitLit('TOP · pin');
  await hand.read('62');
  await hand.saved();
  await expect
    .poll(async () => (await places(program, job, 'bore-1')).map((place) => place.readings.length))
    .toEqual(all.map(() => 2));
  await page.getByRole('button', { name: /whole part/ }).tap();
  await page
    .locator('.sheet.part')
    .getByText(/TOP · pin/)
    .first()
    .waitFor();
  await expect.poll(() => page.locator('.sheet.part > p').count()).toBeGreaterThan(0);
  await close();
});

test('a part that somebody holds takes no figure of another until the holder leaves; a second reading it takes', async () => {
  const one = await open('bore-2', 'JB');
  await one.hand.waitLit('TOP · thrust');
  const other = await openBusy('bore-2', 'AK');
  const busy = other.page.getByText('JB is reading this part');
  await busy.waitFor();
  await other.page.getByRole('link', { name: 'Another part' }).waitFor();
  await picture(other.page, 'held');
  expect(await other.page.locator('.keypad').count()).toBe(0);
  await other.page.keyboard.type('71');
  await other.page.keyboard.press('Enter');
  await other.hand.follow('Read it a second time');
  await other.page.getByText('second reading by AK').waitFor();
  await other.page.locator('.keypad').waitFor();
  await other.page.goBack();
  await busy.waitFor();
  await one.close();
  await busy.waitFor({ state: 'detached' });
  await other.page.locator('.keypad').waitFor();
  await other.hand.waitLit('TOP · thrust');
  expect(await other.page.locator('.digits').textContent()).toBe('');
  await other.hand.saved();
  expect((await places(program, job, 'bore-2')).flatMap((place) => place.readings)).toEqual([]);
  await other.close();
});

test('touches are locked for a wipe, and only for that', async () => {
  const { page, hand, close } = await open('bore-2', 'JB');
  await hand.waitLit('TOP · thrust');
  await page.getByRole('button', { name: /^Lock touches/ }).tap();
  await page.getByRole('button', { name: '7', exact: true }).tap({ force: true });
  expect(await page.locator('.digits').textContent()).toBe('');
  await page.locator('.where .wipe').filter({ hasText: 'Wipe' }).waitFor();
  await hand.digits('7');
  expect(await page.locator('.digits').textContent()).toBe('7');
  await hand.key('Take the last digit away');
  await close();
});

test('a text that means nothing is refused in a sentence, stays, and is not sent', async () => {
  const { page, hand, close } = await open('bore-2', 'JB');
  await hand.waitLit('TOP · thrust');
  await hand.key('Note');
  await page.getByRole('button', { name: /own keys/ }).tap();
  await page.getByRole('textbox').fill('7x');
  await page.getByRole('button', { name: 'Keep' }).tap();
  await page.locator('.number.refused').waitFor();
  expect(await page.locator('.line p').textContent()).not.toBe('');
  await hand.key('ENTER');
  await page.waitForTimeout(300);
  expect(await page.locator('.digits').textContent()).toBe('7x');
  expect((await places(program, job, 'bore-2'))[0]?.readings).toEqual([]);
  await hand.key('Take the last digit away');
  await hand.key('Take the last digit away');
  await close();
});

test('help comes by itself to whoever is new, the keys stay live, and the first reading puts it away', async () => {
  const { page, hand, close } = await open('bore-2', 'New');
  await page.evaluate(() => {
    localStorage.removeItem('fettle.clean.New.cylinder-bore');
  });
  await page.reload();
  await page.locator('.sheet.how').waitFor();
  await hand.read('70');
  await page.locator('.sheet.how').waitFor({ state: 'detached' });
  await hand.waitLit('MIDDLE · thrust');
  await hand.saved();
  await close();
});

test('a reading that is asked about may stand, with no argument, and is not asked about again', async () => {
  const { page, hand, close } = await open('bore-2', 'JB');
  await hand.waitLit('MIDDLE · thrust');
  await hand.otherSide();
  await hand.read('60');
  await page.locator('.number.asked').waitFor();
  await hand.waitLit('MIDDLE · thrust');
  await hand.key('It stands');
  await hand.waitLit('BOTTOM · thrust');
  await page.locator('.number.asked').waitFor({ state: 'detached' });
  await hand.otherSide();
  await hand.saved();
  expect((await places(program, job, 'bore-2'))[1]?.readings.map((each) => each.text)).toEqual(['60 ↻']);
  await close();
});
