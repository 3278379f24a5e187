import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { chromium, type Browser, type BrowserContext, type Page } from 'playwright-core';
import { palettePng } from './palette';

/** The system's browser; nothing is downloaded. */
export async function openBrowser(more: readonly string[] = []): Promise<Browser> {
  return chromium.launch({
    executablePath: process.env['FETTLE_CHROMIUM'] ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu', ...more],
  });
}

export interface Phone {
  readonly width?: number;
  readonly height?: number;
  readonly who?: string;
  readonly light?: 'sun' | 'lamp';
  readonly language?: 'en' | 'de';
}

/** A phone in somebody's hand: initials said once, help put away. */
export async function phone(
  browser: Browser,
  { width = 360, height = 740, who = 'JB', light = 'sun', language = 'en' }: Phone = {},
): Promise<BrowserContext> {
  const context = await browser.newContext({
    viewport: { width, height },
    hasTouch: true,
    locale: language === 'de' ? 'de-DE' : 'en-GB',
    reducedMotion: 'reduce',
  });
  await context.addInitScript(
    ([initials, lit]) => {
      if (localStorage.getItem('fettle.who') !== null) return;
      localStorage.setItem('fettle.who', initials);
      localStorage.setItem('fettle.light', lit);
      localStorage.setItem(`fettle.clean.${initials}.cylinder-bore`, '3');
    },
    [who, light] as const,
  );
  context.setDefaultTimeout(10000);
  return context;
}

/** Counts what the hand does: every tap on a key of the page. */
export class Hand {
  taps = 0;
  constructor(readonly page: Page) {}

  async key(name: string): Promise<void> {
    this.taps += 1;
    await this.page.getByRole('button', { name, exact: true }).tap();
  }
  /** A key among a few, each a key of its own. */
  async choose(of: string, words: string): Promise<void> {
    this.taps += 1;
    await this.page
      .getByRole('group', { name: of, exact: true })
      .locator('label')
      .filter({ hasText: words })
      .last()
      .tap();
  }
  /** A key that goes to another page. */
  async follow(name: string | RegExp): Promise<void> {
    this.taps += 1;
    await this.page.getByRole('link', { name }).first().tap();
  }
  async digits(text: string): Promise<void> {
    for (const digit of text) await this.key(digit);
  }
  /** Digits and ENTER. */
  async read(text: string): Promise<void> {
    await this.digits(text);
    await this.understood();
    await this.key('ENTER');
  }
  /** As a person waits with the finger above ENTER until the line below the number has caught up. */
  async understood(): Promise<void> {
    await this.page.locator('.figure[data-state="understood"], .figure[data-state="refused"]').waitFor();
  }
  async otherSide(): Promise<void> {
    this.taps += 1;
    await this.page.getByRole('button', { name: /^Needle stands/ }).tap();
  }
  async lit(): Promise<string> {
    return (await this.page.locator('h2.words b').textContent()) ?? '';
  }
  async waitLit(name: string | RegExp): Promise<void> {
    await this.page.locator('h2.words b').filter({ hasText: name }).waitFor();
  }
  async saved(): Promise<void> {
    await this.page.locator('.where .kept').filter({ hasText: 'saved' }).waitFor();
  }
}

/** Pictures that a person looks at, in the build folder. */
export async function picture(page: Page, name: string, how: { fullPage?: boolean } = {}): Promise<void> {
  const folder = process.env['FETTLE_PICTURES'];
  if (folder === undefined) return;
  mkdirSync(folder, { recursive: true });
  await page.screenshot({ ...how, path: join(folder, `${name}.png`) });
}

/** Pictures of docs/PAGE.md; RECORD=1 writes them anew. Look at them before you keep them. */
export async function documented(page: Page, name: string): Promise<void> {
  const tree = process.env['FETTLE_SOURCE_DIR'];
  if (process.env['RECORD'] !== '1' || tree === undefined) return;
  mkdirSync(join(tree, 'docs/pictures'), { recursive: true });
  writeFileSync(join(tree, 'docs/pictures', `${name}.png`), palettePng(await page.screenshot()));
}
