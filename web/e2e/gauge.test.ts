import { spawn } from 'node:child_process';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { Hand, openBrowser, phone } from './hand';
import { Program } from './program';
import { linnet, places } from './shop';

const program = new Program();
const port = spawn('python3', ['-B', join(import.meta.dirname, 'port.py')], { stdio: ['pipe', 'pipe', 'inherit'] });
const send = (line: string): void => void port.stdin.write(`${line}\n`);
let browser: Browser;
let job: string;

beforeAll(async () => {
  const path = await new Promise<string>((resolve) =>
    port.stdout.once('data', (piece: Buffer) => {
      resolve(piece.toString().trim());
    }),
  );
  await program.start(['--gauge', `G2=${path},9600,{number}`]);
  browser = await openBrowser();
  job = await linnet(program);
});
afterAll(async () => {
  port.kill();
  await browser.close();
  await program.end();
});

test('a gauge on the server’s port reads without a tap, for the one device that took it; what nobody took waits', async () => {
  const mine = await phone(browser, { who: 'JB' });
  const other = await phone(browser, { who: 'AK' });
  const page = await mine.newPage();
  const beside = await other.newPage();
  await page.goto(`${program.url}#/jobs/${job}/round/bore-1`);
  await beside.goto(`${program.url}#/jobs/${job}/round/bore-2`);
  const hand = new Hand(page);
  await hand.waitLit('TOP · thrust');
  await new Hand(beside).waitLit('TOP · thrust');

  send('50');
  await page.getByRole('button', { name: 'Gauges on the server' }).filter({ hasText: '1' }).waitFor();
  await hand.key('Gauges on the server');
  await page.getByText('1 line of gauges waits').waitFor();
  await page.getByRole('button', { name: 'G2 → this device' }).tap();
  await page.getByRole('button', { name: 'G2: let go' }).waitFor();
  await page.getByRole('button', { name: 'Put aside' }).tap();
  await page.getByText('1 line of gauges waits').waitFor({ state: 'detached' });
  await hand.key('Close');

  const before = hand.taps;
  send('71');
  await hand.waitLit('MIDDLE · thrust');
  send('31');
  await hand.waitLit('BOTTOM · thrust');
  expect(hand.taps).toBe(before);
  await hand.saved();
  expect(
    (await places(program, job, 'bore-1')).slice(0, 2).map((place) => place.readings.map((each) => each.text)),
  ).toEqual([['71 ↺'], ['31 ↺']]);
  expect((await places(program, job, 'bore-2')).flatMap((place) => place.readings)).toEqual([]);

  // What is no reading is shown as it came, and nothing is made of it.
  send('E: battery');
  await page.locator('.line').filter({ hasText: 'E: battery' }).waitFor();
  await hand.key('Put aside');
  await page.locator('.line').filter({ hasText: 'E: battery' }).waitFor({ state: 'detached' });
  await hand.waitLit('BOTTOM · thrust');
  await mine.close();
  await other.close();
});
