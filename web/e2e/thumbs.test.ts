// The acceptance script of the invented Linnet 4, "setting" and "bores", by thumbs on the real page.
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, onTestFailed, test } from 'vitest';
import { litTimes, median, timeToKeys, watchLit } from './clock';
import { documented, Hand, openBrowser, phone, picture } from './hand';
import { bores, limitsOf, newEngine, placeNames } from './linnet';
import { Program } from './program';
import { act, head, places } from './shop';

const program = new Program();
let browser: Browser;
let context: BrowserContext;
let page: Page;
let hand: Hand;
let job: string;

/** A gauge in a bore takes its time: added as arithmetic, not waited for. */
const gaugeSeconds = 8;
/** From the first reading of bore 2 to the last of bore 4: 24 places, the blunder, the power cut and the carbon among them. */
let began = 0;
let tapsBefore = 0;
let gauged = 0;

beforeAll(async () => {
  await program.start();
  browser = await openBrowser();
  context = await phone(browser);
  page = await context.newPage();
  hand = new Hand(page);
});
afterAll(async () => {
  await browser.close();
  await program.end();
});
function tellWhere(): void {
  onTestFailed(async () => {
    console.log(page.url(), await page.evaluate(() => document.body.innerText));
  });
}
/** One reading of the plan: the place is lit, digits, ENTER. No more than digits + 1 taps. */
async function reading(part: keyof typeof bores, at: number): Promise<void> {
  await hand.waitLit(placeNames[at] ?? '');
  const text = bores[part][at] ?? '';
  const before = hand.taps;
  await hand.read(text);
  gauged += 1;
  expect(hand.taps - before).toBeLessThanOrEqual(text.length + 1);
}
async function readings(part: keyof typeof bores, from: number, to: number): Promise<void> {
  for (let at = from; at < to; at += 1) await reading(part, at);
}
/** The part's round is full: on to the next by one tap, and that its first digit is the next. */
async function nextBore(next: string): Promise<void> {
  await hand.follow(/^Next: bore/i);
  await page.locator('.where b').filter({ hasText: next }).waitFor();
}

test('an engine by the page’s own form', async () => {
  tellWhere();
  await page.goto(program.url);
  await hand.follow('Begin: name the engine');
  job = await newEngine(hand, 'Linnet 4');
  await limitsOf(program, job);
});

test('the gauge is set: an inch micrometer that reads 3.0001 on its standard, three zeros, and the proof', async () => {
  tellWhere();
  await hand.follow('Set a gauge');
  await hand.key('Name the gauge');
  await page.locator('#preset').selectOption('dial-bore-gauge-0-001-mm');
  await page.getByLabel('Its name').fill('G2');
  await hand.key('0.2 mm');
  await hand.key('Next');
  await hand.key('↻ clockwise');
  await page.getByText('for 78.000 mm').waitFor();
  await hand.key('Next');
  await hand.key('Name the master');
  await page.locator('#preset').selectOption('outside-micrometer-3-4-in');
  await page.getByLabel('The standard is marked').fill('3.0000');
  await page.getByLabel('The micrometer shows on it').fill('3.0001');
  await hand.key('Next');
  // What would be nearest is advised; what was really set counts, and its size is said: 3.0709 - 0.0001 = 3.0708 in = 77.9983 mm.
  const set = page.getByLabel('Really set to, in');
  await set.fill('');
  await page.waitForTimeout(400);
  expect(await set.inputValue(), 'a field that is cleared stays clear').toBe('');
  await set.fill('2.0709');
  await page.getByRole('alert').filter({ hasText: 'cannot lend' }).waitFor();
  await set.fill('3.0709');
  await page.getByText(/at 3\.0709 in is really 77\.9983 mm/).waitFor();
  await picture(page, 'thumbs-master');
  await hand.key('Next');
  await page.getByText('Zero three times').waitFor();
  await hand.key('0');
  await hand.key('ENTER');
  await hand.key('1');
  await hand.key('ENTER');
  await hand.key('0');
  await picture(page, 'thumbs-setting');
  await documented(page, 'setting');
  await hand.key('ENTER');
  await page.getByText('The zeros agree.').waitFor();
  await hand.key('Next');
  // Opened by .003 in = 76.2 divisions from 3.0709. Not by .004 as in the script: 101.6 of a dial of 200 look the same the other way round.
  await page.getByText('by 0.0030 in, to 3.0739 in').waitFor();
  expect(await page.getByText('The needle should stand').textContent()).toMatch(/76 or 77 divisions ↺/);
  await hand.digits('38');
  await hand.key('ENTER');
  await page.getByRole('alert').filter({ hasText: 'half as far' }).waitFor();
  await hand.key('Prove again');
  await hand.digits('76');
  await hand.key('ENTER');
  await page.locator('[role="status"].said').waitFor();
  // 78.100 - 77.9983 is 101.7 divisions, not the 99.1 of a micrometer set as advised.
  await page.getByText(/101\.7 ↺: service limit 78\.100/).waitFor();
  await picture(page, 'thumbs-proved');
  await hand.key('Keep the setting');
  await page.locator('.keypad').waitFor();
  const kept = JSON.stringify(await program.get(`api/jobs/${job}/gauges?for=bore-1`));
  expect(kept).toContain('3.0709 in');
  expect(kept).toContain('zeros 0, 1 ↺, 0');
});

test('bore 1: eight readings, and not a tap more than their digits and ENTER', async () => {
  tellWhere();
  const before = hand.taps;
  await watchLit(page);
  await readings('bore-1', 0, 8);
  expect(hand.taps - before).toBe(2 * 8 + 8);
  await page.locator('.closed').waitFor();
  // One setting serves all bores: on to the next comes first, closing last, with what it does.
  const offered = page.locator('.closed a, .closed button');
  await offered.first().filter({ hasText: 'Next: Bore 2' }).waitFor();
  expect(await offered.last().textContent()).toContain('close with the zero');
  await page.getByText('nothing more is read under this setting').waitFor();
  await picture(page, 'part-read');
  // Wanted: 100 ms. On a machine that does other things as well the worst of eight is given more.
  const lit = await litTimes(page);
  console.log(
    `next place lit, ms from lift to frame: median ${median(lit).toFixed(0)}, worst ${Math.max(...lit).toFixed(0)}`,
  );
  expect(lit.length).toBeGreaterThanOrEqual(7);
  expect(median(lit)).toBeLessThan(100);
  expect(Math.max(...lit)).toBeLessThan(250);
  await nextBore('Bore 2');
});

test('bore 2: the needle’s other side is asked about at once, on the lit place, and both readings are kept', async () => {
  tellWhere();
  began = performance.now();
  tapsBefore = hand.taps;
  gauged = 0;
  await readings('bore-2', 0, 6);
  await hand.waitLit('MIDDLE · pin');
  await hand.digits('28');
  await hand.understood();
  await documented(page, 'round');
  await hand.key('Take the last digit away');
  await hand.key('Take the last digit away');
  await hand.otherSide();
  await hand.read('28');
  gauged += 1;
  await page.locator('.number.asked').waitFor();
  await hand.waitLit('MIDDLE · pin');
  expect(await page.locator('.line p').textContent()).toMatch(
    /28 ↻ would be smaller than new\. Needle on the other side\?/,
  );
  await picture(page, 'thumbs-asked');
  // A re-read costs its digits, ENTER, and the side that was wrong; ENTER again is yes.
  const before = hand.taps;
  await hand.otherSide();
  await hand.read('28');
  gauged += 1;
  expect(hand.taps - before).toBeLessThanOrEqual(2 + 2);
  await page
    .locator('.line p')
    .filter({ hasText: /needle side.*ENTER: yes/ })
    .waitFor();
  await page.waitForTimeout(260); // a finger that bounces is no yes
  await hand.key('ENTER');
  await reading('bore-2', 7);
  await hand.saved();
  const middle = (await places(program, job, 'bore-2'))[6]?.readings ?? [];
  expect(middle.map(({ text, flag }) => [text, flag])).toEqual([
    ['28 ↺', null],
    ['28 ↻', 'mistake'], // a later event took the first one's place
  ]);
  await nextBore('Bore 3');
});

test('bore 3: the power is cut; what is unsent is counted, and arrives once', async () => {
  tellWhere();
  await readings('bore-3', 0, 3);
  await hand.saved();
  await program.kill();
  for (const at of [3, 4, 5]) {
    await hand.waitLit(placeNames[at] ?? '');
    await hand.digits(bores['bore-3'][at] ?? '');
    await hand.key('ENTER');
    gauged += 1;
    await page.getByText(`${String(at - 2)} unsent`).waitFor();
  }
  await program.start();
  await hand.saved();
  // The phone is put away and taken up again: one tap from the bench to the first digit, at the place that is next.
  await page.goto(program.url);
  await page.getByText('Go on').first().waitFor();
  await documented(page, 'bench');
  const before = hand.taps;
  await hand.follow(/Go on/);
  expect(hand.taps - before).toBe(1);
  await readings('bore-3', 6, 8);
  await hand.saved();
  const read = await places(program, job, 'bore-3');
  expect(read.map((place) => place.readings.map(({ text }) => text))).toEqual(
    bores['bore-3'].map((text) => [`${text} ↺`]),
  );
});

test('bore 4: a reading on carbon is kept and left out, and its place is read again, cleaned', async () => {
  tellWhere();
  await nextBore('Bore 4');
  await hand.waitLit('TOP · thrust');
  await hand.digits('61');
  await hand.key('Note');
  await hand.key('carbon');
  await hand.key('ENTER');
  gauged += 1;
  await readings('bore-4', 0, 8);
  const seconds = (performance.now() - began) / 1000;
  const whole = seconds + gaugeSeconds * gauged;
  console.log(
    `24 places, ${String(gauged)} readings, ${String(hand.taps - tapsBefore)} taps: ${seconds.toFixed(1)} s of page, ` +
      `${whole.toFixed(0)} s with ${String(gaugeSeconds)} s a reading; allowed: 300 s for 18 places`,
  );
  expect(gauged).toBe(26);
  expect(whole).toBeLessThan(300);
});

test('a second person reads bore 3 blind, then the closing zero', async () => {
  tellWhere();
  const other = await phone(browser, { who: 'OD' });
  const theirs = await other.newPage();
  await theirs.goto(`${program.url}#/jobs/${job}/round/bore-3?second=1`);
  const second = new Hand(theirs);
  await second.waitLit('TOP · thrust');
  expect(await theirs.evaluate(() => document.body.innerText)).not.toMatch(/144|78\.14/);
  await second.read('141');
  await second.waitLit('MIDDLE · thrust');
  await second.saved();
  expect(await theirs.evaluate(() => document.body.innerText)).not.toMatch(/144|78\.142/);
  await other.close();
  const top = (await places(program, job, 'bore-3'))[0]?.readings ?? [];
  expect(top.map(({ text, who }) => [text, who])).toEqual([
    ['144 ↺', 'JB'],
    ['141 ↺', 'OD'],
  ]);

  await hand.waitLit('Back on the master');
  await hand.digits('2');
  await hand.key('ENTER');
  await page.waitForTimeout(300);
  while (/°C/.test(await hand.lit())) {
    await hand.key('Skip');
    await page.waitForTimeout(300);
  }
  await page.getByText('This round is closed').first().waitFor();
  await hand.saved();
  await hand.follow('Verdict');
});

interface Verdicts {
  readonly rows: readonly {
    readonly part: string;
    readonly limit: string;
    readonly state: string;
    readonly figures: string;
  }[];
}
test('the verdicts: bore 3 is beyond on all three limits, the others are within', async () => {
  tellWhere();
  await page.locator('.verdict').first().waitFor({ timeout: 60000 });

  expect(await page.locator('.aloud').textContent()).toBe(
    'Bores 1, 2 and 4 may go back; bore 3 is beyond; not judged yet: Pistons, Main journals, Crankpins.',
  );
  const judged = (await program.get(`api/jobs/${job}/verdicts`)) as Verdicts;
  const words = new Map(judged.rows.map((row) => [`${row.part}/${row.limit}`, row.state]));
  for (const part of Object.keys(bores))
    for (const limit of ['bore-service', 'bore-oor', 'bore-taper'])
      expect(words.get(`${part}/${limit}`), `${part} ${limit}`).toBe(part === 'bore-3' ? 'beyond' : 'within');
  // The script's figures, mm. The three zeros stood 0.3 µm off in the mean; at the top of bore 3 the second person's 141 is a repeat,
  // so that 142.5 counts. Drift is not taken off what is as measured.
  const wanted = [
    ['bore-1', 78.0763, 0.012, 0.058, 0.0005],
    ['bore-2', 78.0693, 0.011, 0.053, 0.0005],
    ['bore-3', 78.1423, 0.056, 0.12, 0.002],
    ['bore-4', 78.0823, 0.014, 0.063, 0.0005],
  ] as const;
  for (const [part, largest, oor, taper, apart] of wanted) {
    for (const [limit, figure] of [
      ['bore-service', largest],
      ['bore-oor', oor],
      ['bore-taper', taper],
    ] as const) {
      const row = judged.rows.find((each) => each.part === part && each.limit === limit);
      const found = Number(/^as measured ([\d.]+) mm/.exec(row?.figures ?? '')?.[1]);
      expect(Math.abs(found - figure), `${part} ${limit}: ${row?.figures ?? ''}`).toBeLessThanOrEqual(apart);
      expect(
        await page
          .locator('.verdict')
          .filter({ hasText: row?.figures ?? '?' })
          .count(),
        'shown as answered',
      ).toBe(1);
    }
  }
  await picture(page, 'thumbs-verdict');
  await page.getByRole('heading', { name: 'Judged, worst first' }).evaluate((heading) => {
    heading.scrollIntoView();
  });
  await documented(page, 'verdict');
  await page.goto(`${program.url}#/jobs/${job}`);
  await page.locator('.row').first().waitFor();
  await documented(page, 'engine');
});

test('on a processor four times slower the keys of a round are there within a second', async () => {
  tellWhere();
  const cold = await phone(browser);
  const { ms, sent, plain } = await timeToKeys(cold, `${program.url}#/jobs/${job}/round/bore-4`, 4);
  await cold.close();
  console.log(
    `4 x slower: keys after ${ms.toFixed(0)} ms; the page is ${sent.toFixed(0)} kB on the line, ${plain.toFixed(0)} kB plain`,
  );
  // Wanted: 1000 ms on a machine that does nothing else.
  expect(ms).toBeLessThan(2500);
});

test('in German, 320 wide: a reading with a decimal comma on a micrometer that shows the size itself', async () => {
  const made = (await program.post('api/jobs', {
    ...head(),
    name: 'Linnet-Kurbelwelle',
    engine: 'Vierzylinder, erfunden',
    shown_unit: 'mm',
    decimal_mark: 'comma',
    groups: [{ kind: 'main-journal', count: 1 }],
  })) as { job: string };
  await act(program, made.job, [
    { act: 'gauge', gauge: 'mic', preset: 'outside-micrometer-50-75-mm', reads: '49,998 mm', on_standard: '50,000 mm' },
    { act: 'setting', setting: 'mic-1', gauge: 'mic' },
  ]);
  const narrow = await phone(browser, { width: 320, height: 640, language: 'de' });
  const small = await narrow.newPage();
  const thumb = new Hand(small);
  onTestFailed(async () => {
    console.log(small.url(), await small.evaluate(() => document.body.innerText));
  });
  await small.goto(`${program.url}#/jobs/${made.job}/round/main-1`);
  const first = await (async (): Promise<string> => {
    await small.locator('.keypad').waitFor();
    return thumb.lit();
  })();
  await thumb.digits('51');
  await thumb.key(',');
  await thumb.digits('983');
  await thumb.understood();
  expect(await small.locator('.figure').textContent()).toContain('51,983');
  expect(await small.locator('.understood').textContent()).toBe('= 51,985');
  expect(await small.evaluate(() => document.documentElement.scrollWidth)).toBe(320);
  await picture(small, 'thumbs-german');
  await thumb.key('ENTER');
  await small.locator('h2.words b').filter({ hasNotText: first }).waitFor();
  await small.locator('.where .kept').filter({ hasText: 'gesichert' }).waitFor();
  const [place] = await places(program, made.job, 'main-1');
  expect(place?.readings.map((each) => each.text)).toEqual(['51,983']);
  await narrow.close();
});
