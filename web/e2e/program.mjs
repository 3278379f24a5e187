// The real program on a free port with an empty record of its own, and the distribution's Chromium.
import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';

const beside = (path) => join(import.meta.dirname, path);
/** In the build's copy of the tree the program lies three folders up, in the sources' own tree it is in the build folder. */
const program = [process.env.FETTLE_PROGRAM, beside('../../../bin/fettle'), beside('../../build/dev/bin/fettle')].find(
  (path) => path !== undefined && existsSync(path),
);
export const pictures =
  process.env.FETTLE_PICTURES ??
  [beside('../../../page-pictures'), beside('../../build/dev/page-pictures')].find((path) =>
    existsSync(join(path, '..', 'bin')),
  );

/** Serves until `stop`; `address` is what a browser opens. */
export async function serve(more = []) {
  if (program === undefined) throw new Error('the program is not built');
  const folder = mkdtempSync(join(tmpdir(), 'fettle-page-'));
  const child = spawn(program, ['serve', '--record', join(folder, 'shop.fettle'), '--port', '0', ...more], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let said = '';
  const address = await new Promise((resolve, reject) => {
    const heard = (bytes) => {
      said += bytes;
      const found = /https?:\/\/[^\s"]+/.exec(said);
      if (found !== null) resolve(found[0].replace(/[.,]$/, '').replace(/\/$/, ''));
    };
    child.stdout.on('data', heard);
    child.stderr.on('data', heard);
    child.on('exit', () => reject(new Error(`the program ended: ${said}`)));
  });
  return {
    address,
    said: () => said,
    async stop() {
      const gone = new Promise((resolve) => child.on('exit', resolve));
      child.kill('SIGTERM');
      await gone;
      rmSync(folder, { recursive: true });
    },
  };
}

export const browser = () =>
  chromium.launch({ executablePath: process.env.FETTLE_BROWSER ?? '/usr/bin/chromium', args: ['--no-sandbox'] });

/** A page of a phone (or a desk) with somebody's initials and a language; faults of the page's script fail the test. */
export async function pageOf(run, { width = 360, height = 740, language = 'en', light = 'sun', who = 'JB' } = {}) {
  const context = await run.newContext({ viewport: { width, height }, locale: language === 'de' ? 'de-DE' : 'en-GB' });
  await context.addInitScript(
    ([key, words]) => {
      for (const [name, value] of Object.entries(words)) if (value !== '') localStorage.setItem(`${key}${name}`, value);
    },
    ['fettle.', { language, light, who }],
  );
  const page = await context.newPage();
  page.setDefaultTimeout(15000);
  const faults = [];
  page.on('pageerror', (error) => faults.push(String(error)));
  page.on('console', (line) => {
    if (line.type() === 'error' && !/Failed to load resource/.test(line.text())) faults.push(line.text());
  });
  return { page, context, faults };
}

export async function picture(page, name) {
  if (pictures === undefined) return;
  mkdirSync(pictures, { recursive: true });
  await page.screenshot({ path: join(pictures, `${name}.png`), fullPage: true });
}
