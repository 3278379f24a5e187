import { createRequire } from 'node:module';
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';

const source = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface Found {
  readonly id: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[];
}

/** What axe finds on the page as it stands: rule and place. The page's own rules forbid foreign scripts, so it goes in by the debugger. */
export async function faultsByAxe(page: Page): Promise<readonly string[]> {
  const found = await page.evaluate(async (text) => {
    const world = globalThis as unknown as { axe?: { run: () => Promise<{ violations: Found[] }> } };
    // eslint-disable-next-line @typescript-eslint/no-implied-eval, @typescript-eslint/no-unsafe-call
    if (world.axe === undefined) new Function(text)();
    return (await world.axe?.run())?.violations ?? [{ id: 'axe did not run', nodes: [] }];
  }, source);
  return found.flatMap((each) =>
    each.nodes
      .map((node) => `${each.id}: ${node.html} ${node.failureSummary ?? ''}`)
      .concat(each.nodes.length === 0 ? [each.id] : []),
  );
}
