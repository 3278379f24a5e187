// Parts that no bore gauge reads, with a thumb: from "no gauge yet" to the last place.
import type { Browser, BrowserContext } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { Hand, openBrowser, phone, picture } from './hand';
import { Program } from './program';
import { head } from './shop';

const program = new Program();
const kinds = ['valve-spring', 'valve-lash', 'clock-face', 'valve-guide', 'case-test'] as const;
let browser: Browser;
let context: BrowserContext;
let job = '';
let parts: Readonly<Record<string, string>> = {};

interface Engine {
  readonly groups: readonly { readonly kind: string; readonly parts: readonly { readonly id: string }[] }[];
}
interface Round {
  readonly next: number | null;
  readonly places: readonly {
    readonly station: string;
    readonly readings: readonly { readonly text: string; readonly said: string | null }[];
  }[];
}

beforeAll(async () => {
  await program.start();
  browser = await openBrowser();
  context = await phone(browser);
  const made = (await program.post('api/jobs', {
    ...head(),
    name: 'Dabchick 1',
    engine: 'invented',
    shown_unit: 'mm',
    decimal_mark: 'point',
    groups: kinds.map((kind) => ({ kind, count: 1 })),
  })) as { job: string };
  job = made.job;
  const engine = (await program.get(`api/jobs/${job}`)) as Engine;
  parts = Object.fromEntries(engine.groups.map((group) => [group.kind, group.parts[0]?.id ?? '']));
});
afterAll(async () => {
  await browser.close();
  await program.end();
});

async function open(kind: string, shows = '.no-gauge'): Promise<Hand> {
  const page = await context.newPage();
  await page.addInitScript((of) => {
    localStorage.setItem(`fettle.clean.JB.${of}`, '3');
  }, kind);
  await page.goto(`${program.url}#/jobs/${job}/round/${parts[kind] ?? ''}`);
  await page.locator(shows).waitFor();
  return new Hand(page);
}
/** Two taps from a place that nothing reads to its keys. */
async function take(hand: Hand, gauge: string): Promise<void> {
  const before = hand.taps;
  await hand.follow('Set a gauge');
  await hand.key(`${gauge}: take it to hand`);
  await hand.page.locator('.keypad').waitFor();
  expect(hand.taps - before).toBe(2);
}
async function readings(hand: Hand, kind: string): Promise<readonly string[]> {
  await hand.saved();
  const page = (await program.get(`api/jobs/${job}/rounds/${parts[kind] ?? ''}`)) as Round;
  expect(page.next, kind).toBe(null);
  return page.places.map((place) => place.readings[0]?.said ?? '');
}

test('a spring: its lengths on a caliper, its forces on a tester, its lean with a feeler', async () => {
  const hand = await open('valve-spring');
  await hand.waitLit('FREE LENGTH');
  await take(hand, 'caliper');
  await hand.read('48.2');
  await hand.read('40.0');
  // The force is no length: the page asks for a gauge that reads it, once.
  await hand.page.locator('.no-gauge').waitFor();
  await take(hand, 'spring tester');
  await hand.digits('310');
  expect(await hand.page.locator('.understood').textContent()).toContain('First');
  await picture(hand.page, 'kinds-spring-unit');
  await hand.page.getByRole('group', { name: 'In which unit' }).getByRole('button', { name: 'N', exact: true }).tap();
  await hand.understood();
  await hand.key('ENTER');
  await hand.waitLit('OPEN LENGTH');
  await hand.read('31.5');
  await hand.read('620');
  await hand.page.locator('.no-gauge').waitFor();
  await take(hand, 'feeler gauge');
  await picture(hand.page, 'kinds-spring-lean');
  await hand.read('1.2');
  expect(await readings(hand, 'valve-spring')).toEqual(
    expect.arrayContaining([expect.stringContaining('48.2'), expect.stringContaining('310')]),
  );
  await hand.page.close();
});

test('a gap with a feeler; the face of a housing with signs; a guide; a pressure test', async () => {
  // The feeler is in the hand since the spring: it goes on reading with no tap at all.
  let hand = await open('valve-lash', '.keypad');
  for (const gap of ['0.25', '0.25', '0.30']) await hand.read(gap);
  expect((await readings(hand, 'valve-lash')).length).toBe(3);
  await hand.page.close();

  hand = await open('clock-face');
  await take(hand, 'dial indicator, 0.01 mm');
  await hand.read('0.00');
  await hand.digits('0.04');
  await hand.key('Above or below: plus or minus');
  await picture(hand.page, 'kinds-clock');
  await hand.understood();
  await hand.key('ENTER');
  for (const height of ['0.02', '0.05']) await hand.read(height);
  expect(await readings(hand, 'clock-face')).toContainEqual(expect.stringMatching(/^[-−]0\.04/));
  await hand.page.close();

  hand = await open('valve-guide');
  await take(hand, 'small-hole gauge and metric micrometer');
  for (const size of ['8.02', '8.01', '8.03', '8.03', '8.01', '8.02']) await hand.read(size);
  expect((await readings(hand, 'valve-guide')).length).toBe(6);
  await hand.page.close();

  hand = await open('case-test');
  await take(hand, 'pressure gauge');
  await hand.page.getByRole('group', { name: 'In which unit' }).getByRole('button', { name: 'bar', exact: true }).tap();
  await hand.read('0.50');
  await picture(hand.page, 'kinds-pressure');
  await hand.read('0.45');
  expect((await readings(hand, 'case-test')).length).toBe(2);
  await hand.page.close();
});
