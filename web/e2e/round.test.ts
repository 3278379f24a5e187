import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { Hand, openBrowser, phone, picture } from './hand';
import { Program } from './program';
import { act, linnet, places } from './shop';

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

async function open(part: string, who = 'JB'): Promise<{ page: Page; hand: Hand; close: () => Promise<void> }> {
  const context = await phone(browser, { who });
  const page = await context.newPage();
  await page.goto(`${program.url}#/jobs/${job}/round/${part}`);
  await page.locator('.keypad').waitFor();
  return { page, hand: new Hand(page), close: () => context.close() };
}

/** Down one axis, up the other, as the hand moves. */
const thrust = ['71', '31', '18', '12'];
const pin = ['12', '16', '28', '60'];

test('a bore by keypad alone, with a blunder, carbon and a network cut, within the taps that the design allows', async () => {
  const { page, hand, close } = await open('bore-1');
  await hand.waitLit('TOP · thrust');
  for (const text of thrust) await hand.read(text);
  expect(hand.taps).toBe(8 + 4);
  await hand.waitLit('FOOT · pin');

  // Carbon: a note and its word, on top of digits and ENTER; the place is read again, cleaned.
  const before = hand.taps;
  await hand.digits('40');
  await hand.key('Note');
  await hand.key('carbon');
  await hand.key('ENTER');
  await hand.waitLit('FOOT · pin');
  expect(hand.taps - before).toBe(2 + 3);
  await hand.read('12');

  // The network is cut: nothing stops, each reading is counted as unsent.
  await hand.waitLit('BOTTOM · pin');
  await hand.saved();
  await page.context().setOffline(true);
  await hand.digits('16');
  await page.getByText('Not yet understood').waitFor();
  await hand.key('ENTER');
  await hand.waitLit('MIDDLE · pin');
  await page.getByText('1 unsent').waitFor();
  await page.context().setOffline(false);
  await hand.saved();

  // The blunder: the needle's other side. The question stands in the line, the place stays lit; the answer is a reading.
  await hand.otherSide();
  await hand.read('28');
  await page.locator('.number.asked').waitFor();
  await hand.waitLit('MIDDLE · pin');
  const again = hand.taps;
  await hand.otherSide();
  await hand.read('28');
  await page.locator('.line').filter({ hasText: 'ENTER: yes' }).waitFor();
  await page.waitForTimeout(300);
  await hand.key('ENTER');
  expect(hand.taps - again).toBeLessThanOrEqual(2 + 1 + 2);
  await hand.waitLit('TOP · pin');
  await hand.read(pin[3] ?? '');
  await hand.saved();

  const read = await places(program, job, 'bore-1');
  expect(read.map((place) => place.readings.filter((each) => each.flag === null).map((each) => each.text))).toEqual(
    [...thrust, ...pin].map((text) => [`${text} ↺`]),
  );
  expect(
    read
      .flatMap((place) => place.readings)
      .filter((each) => each.flag !== null)
      .map((each) => [each.text, each.flag]),
  ).toEqual([
    ['40 ↺', 'deposit'],
    ['28 ↻', 'mistake'],
  ]);
  await close();
});

test('the next place is lit within 100 ms of ENTER', async () => {
  const { page, hand, close } = await open('bore-2');
  await hand.waitLit('TOP · thrust');
  await hand.digits('7');
  await hand.understood();
  const lit = await page.evaluate(async () => {
    const words = document.querySelector('h2.words b');
    const enter = [...document.querySelectorAll('button')].find((each) => each.textContent === 'ENTER');
    if (words === null || enter === undefined) throw new Error('no keys');
    const was = words.textContent;
    const began = performance.now();
    enter.click();
    while (words.textContent === was && performance.now() - began < 1000)
      await new Promise((resolve) => setTimeout(resolve, 1));
    return performance.now() - began;
  });
  expect(lit).toBeLessThan(100);
  await hand.saved();
  await hand.key('Take back');
  await hand.waitLit('TOP · thrust');
  await hand.saved();
  await expect.poll(async () => (await places(program, job, 'bore-2'))[0]?.readings.length).toBe(0);
  await close();
});

test('half-typed digits are there after a reload, at the same place', async () => {
  const { page, hand, close } = await open('bore-2');
  await hand.digits('4');
  await hand.otherSide();
  const place = await hand.lit();
  await page.reload();
  await page.locator('.digits').filter({ hasText: '4' }).waitFor();
  expect(await hand.lit()).toBe(place);
  expect(await page.locator('.needle').textContent()).toBe('↻');
  await hand.otherSide();
  await hand.key('Take the last digit away');
  await close();
});

test('ENTER on an empty field does nothing, and a bounce of the finger is no second reading', async () => {
  const { page, hand, close } = await open('bore-2');
  const before = (await places(program, job, 'bore-2')).flatMap((place) => place.readings).length;
  await hand.key('ENTER');
  await hand.digits('70');
  await hand.understood();
  await page.getByRole('button', { name: 'ENTER', exact: true }).dblclick();
  await hand.saved();
  await page.waitForTimeout(400);
  expect((await places(program, job, 'bore-2')).flatMap((place) => place.readings)).toHaveLength(before + 1);
  await close();
});

test('a keyboard, or a gauge that types, lands in the number wherever the focus is', async () => {
  const { page, hand, close } = await open('bore-2');
  await hand.waitLit('MIDDLE · thrust');
  await page.getByRole('button', { name: 'How to measure here' }).focus();
  await page.keyboard.type('31');
  await hand.understood();
  await page.keyboard.press('Enter');
  await hand.waitLit('BOTTOM · thrust');
  await hand.saved();
  expect((await places(program, job, 'bore-2'))[1]?.readings.map((each) => each.text)).toEqual(['31 ↺']);
  await close();
});

test('two pages see each other within a second', async () => {
  const one = await open('bore-2');
  const other = await phone(browser, { who: 'AK' });
  const page = await other.newPage();
  await page.goto(`${program.url}#/jobs/${job}`);
  await one.hand.waitLit('BOTTOM · thrust');
  await page.getByText('10 in').waitFor();
  await one.hand.digits('18');
  await one.hand.understood();
  const began = Date.now();
  await one.hand.key('ENTER');
  await page.getByText('11 in').waitFor();
  expect(Date.now() - began).toBeLessThan(1000);
  await one.close();
  await other.close();
});

test('the server killed in the middle: nothing is lost, nothing comes twice', async () => {
  const { page, hand, close } = await open('bore-2');
  await hand.waitLit('FOOT · thrust');
  await hand.read('12');
  await hand.saved();
  await program.kill();
  for (const [text, next] of [
    ['12', 'BOTTOM · pin'],
    ['16', 'MIDDLE · pin'],
  ] as const) {
    await hand.digits(text);
    await hand.key('ENTER');
    await hand.waitLit(next);
    await page.waitForTimeout(300);
  }
  await page.getByText('2 unsent').waitFor();
  // The tab is closed and opened again while the server is away: the readings are still in this browser.
  await page.close();
  await program.start();
  const back = await page.context().newPage();
  await back.goto(`${program.url}#/jobs/${job}/round/bore-2`);
  const again = new Hand(back);
  await again.saved();
  await again.waitLit('MIDDLE · pin');
  const read = await places(program, job, 'bore-2');
  expect(read.slice(4, 6).map((place) => place.readings.map((each) => each.text))).toEqual([['12 ↺'], ['16 ↺']]);
  await close();
});

test('the zero closes the round, then temperatures; what was not measured is skipped', async () => {
  const { page, hand, close } = await open('bore-2');
  await hand.waitLit('MIDDLE · pin');
  await hand.read('28');
  await hand.waitLit('TOP · pin');
  await hand.read('60');
  await hand.waitLit('Back on the master');
  await hand.digits('1');
  await hand.key('ENTER');
  await hand.waitLit('Part, °C');
  await hand.digits('21');
  await hand.key('ENTER');
  await page.waitForTimeout(300);
  await hand.waitLit('Master, °C');
  await hand.digits('20');
  await hand.key('ENTER');
  await page.locator('.closed').getByText('This round is closed').waitFor();
  await hand.saved();
  const done = (await program.get(`api/jobs/${job}/events`)) as { events: readonly { words: string }[] };
  expect(
    done.events
      .slice(0, 2)
      .map((each) => each.words)
      .join(' / '),
  ).toMatch(/21 °C/);
  // A figure typed after that belongs nowhere: it is no temperature, and the line says so.
  await hand.digits('12');
  await page.locator('.line').filter({ hasText: 'nothing takes this figure' }).waitFor();
  await hand.key('ENTER');
  await page.waitForTimeout(500);
  await hand.saved();
  expect(((await program.get(`api/jobs/${job}/events`)) as typeof done).events).toHaveLength(done.events.length);
  await close();
});

test('a closing zero far off is answered: by how much, what hangs on it, and the two places that tell when it moved', async () => {
  const own = await linnet(program, 1);
  const all = [
    ['top', 'thrust', '71'],
    ['mid', 'thrust', '31'],
    ['bottom', 'thrust', '18'],
    ['foot', 'thrust', '12'],
    ['foot', 'pin', '12'],
    ['bottom', 'pin', '16'],
    ['mid', 'pin', '28'],
  ] as const;
  const reading = { act: 'reading', part: 'bore-1', unit: 'div', setting: 'G2-1', round: '1' };
  await act(
    program,
    own,
    all.map(([station, direction, text], at) => ({
      ...reading,
      station,
      direction,
      text: `${text} ↺`,
      order: at + 1,
    })),
  );
  const context = await phone(browser);
  const page = await context.newPage();
  const hand = new Hand(page);
  await page.goto(`${program.url}#/jobs/${own}/round/bore-1`);
  await hand.waitLit('TOP · pin');
  await hand.read('60');
  await hand.waitLit('Back on the master');
  await hand.digits('6');
  await hand.key('ENTER');
  for (const warm of ['Part, °C', 'Master, °C']) {
    await hand.waitLit(warm);
    await hand.digits('20');
    await hand.key('ENTER');
  }
  const said = page.locator('.closed');
  await said
    .getByText('0.0057 mm larger than at the start')
    .or(said.getByText('5.7 µm larger than at the start'))
    .waitFor();
  await said.getByText('Bore 1: 8 readings').waitFor();
  await picture(page, 'zero-moved');
  expect(await said.locator('a').first().textContent()).toBe('Set the gauge again');
  expect(await said.locator('li').allTextContents()).toEqual([
    'Bore 1, top, thrust',
    'Bore 1, top, pin',
    'Bore 1: 8 readings',
  ]);

  // Set anew: the two places are to be read, and only then its zero is asked for.
  await act(program, own, [
    {
      act: 'setting',
      setting: 'G2-2',
      gauge: 'G2',
      master: 'mic-in',
      wanted: '78.000 mm',
      set: '3.0709 in',
      zeros: ['0', '0', '0'],
    },
  ]);
  await page.goto(`${program.url}#/jobs/${own}`);
  // Two addresses in one breath would be one page for the browser.
  await page.locator('.ribbon').waitFor({ state: 'detached' });
  await page.goto(`${program.url}#/jobs/${own}/round/bore-1`);
  await page.locator('.ribbon').waitFor();
  await picture(page, 'zero-moved-again');
  await hand.follow('Read Bore 1, top, thrust');
  await hand.waitLit('TOP · thrust');
  await hand.read('71');
  await hand.follow('Read Bore 1, top, pin');
  await hand.waitLit('TOP · pin');
  await hand.read('66');
  await hand.waitLit('Back on the master');
  await hand.saved();
  await context.close();
});

test('another master writes its own figure in its own unit; what was made since is the last act, not the setting', async () => {
  await act(program, job, [
    {
      act: 'gauge',
      gauge: 'mic-mm',
      preset: 'outside-micrometer-75-100-mm',
      reads: '75.000 mm',
      on_standard: '75.000 mm',
    },
  ]);
  const context = await phone(browser);
  const page = await context.newPage();
  const hand = new Hand(page);
  await page.goto(`${program.url}#/jobs/${job}/set/bore-1?gauge=G2&step=master&whole=1&master=mic-in`);
  const set = page.getByLabel(/^Really set to/);
  await expect.poll(() => set.inputValue()).toBe('3.0710');
  await page.locator('label').filter({ hasText: 'mic-mm' }).tap();
  await page.getByLabel('Really set to, mm').waitFor();
  await expect.poll(() => set.inputValue()).toBe('78.000');
  await page.getByRole('button', { name: 'Next', exact: true }).tap();
  for (let n = 0; n < 3; n += 1) {
    await hand.key('0');
    await hand.key('ENTER');
  }
  await hand.key('Next');
  await page.getByRole('button', { name: 'Leave the proof out and keep the setting' }).tap();
  await page.locator('.ribbon').waitFor();
  await page.goto(`${program.url}#/jobs/${job}/limits`);
  await page.locator('.last').waitFor();
  // A reading on the new setting: from here on "Take back" must not take the setting away from under it.
  await page.goBack();
  await page.locator('.ribbon').tap();
  await page.getByRole('button', { name: 'Read TOP · thrust' }).tap();
  await hand.waitLit('TOP · thrust');
  await hand.read('71');
  await hand.saved();
  await page.goto(`${program.url}#/jobs/${job}/limits`);
  await page.locator('#definition').waitFor();
  expect(await page.locator('.last').count()).toBe(0);
  await context.close();
});

test('a gauge that does not fit the part is not taken to hand, and says why', async () => {
  const context = await phone(browser);
  const page = await context.newPage();
  await page.goto(`${program.url}#/jobs/${job}/set/bore-1?gauge=mic-in&step=rods`);
  await page.getByRole('alert').filter({ hasText: 'it reads from outside' }).waitFor();
  expect(await page.getByRole('button', { name: 'Take it to hand' }).count()).toBe(0);
  await context.close();
});

test('looking at the zero on a narrow phone in German: strip and keys keep all their words', async () => {
  const context = await phone(browser, { width: 320, height: 640, language: 'de', who: 'AK' });
  const page = await context.newPage();
  await page.goto(`${program.url}#/jobs/${job}/round/bore-1?setting=G2-2`);
  await page.locator('.ribbon').waitFor();
  // Set by another: that it is stale, and why, stands beside needle sense and age, and hides none of them.
  await page.locator('.strip.stale b').filter({ hasText: 'eingestellt von JB' }).waitFor();
  await page
    .locator('.strip .words span')
    .filter({ hasText: /↻ = kleiner.*eingestellt/ })
    .waitFor();
  await picture(page, 'strip-stale-320-de');
  const hidden = await page
    .locator('.strip .words, .strip .words *')
    .evaluateAll((all) =>
      all
        .filter((each) => each.scrollWidth > each.clientWidth || each.scrollHeight > each.clientHeight)
        .map((each) => `${each.textContent} ${String(each.scrollHeight)} ${String(each.clientHeight)}`),
    );
  expect(hidden).toEqual([]);
  await page.locator('.strip .words').tap();
  await page.getByText('Zurück auf dem Normal').or(page.getByText('Zurück auf das Normal')).first().waitFor();
  const drawn = await page.locator('.strip .words').evaluate((strip) => {
    const clear = 'rgba(0, 0, 0, 0)';
    let behind: Element | null = strip;
    while (behind !== null && getComputedStyle(behind).backgroundColor === clear) behind = behind.parentElement;
    return [getComputedStyle(strip).color, behind === null ? clear : getComputedStyle(behind).backgroundColor];
  });
  expect(drawn[0]).not.toBe(drawn[1]);
  const cut = await page
    .locator('.keypad button')
    .evaluateAll((keys) =>
      keys.filter((key) => key.scrollWidth > key.clientWidth).map((key) => `${key.textContent} ${key.scrollWidth}`),
    );
  expect(cut).toEqual([]);
  const words = await page
    .locator('h2.words b')
    .evaluate((each) => [each.getBoundingClientRect().right - innerWidth, each.textContent]);
  expect(words[0], String(words[1])).toBeLessThanOrEqual(0);
  await context.close();
});

test('the first page: its key has its words before anything is typed', async () => {
  const context = await browser.newContext({ viewport: { width: 360, height: 740 } });
  const page = await context.newPage();
  await page.goto(program.url);
  const colours = await page.getByRole('button', { name: 'That is me' }).evaluate((key) => {
    const { color, backgroundColor } = getComputedStyle(key);
    return [color, backgroundColor];
  });
  expect(colours[0]).not.toBe(colours[1]);
  await context.close();
});
