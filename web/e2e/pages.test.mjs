// Every page on the invented example: both languages, both lights, every width; nothing scrolls sideways, keys are large enough, axe is content.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { after, before, test } from 'node:test';
import { join } from 'node:path';
import { browser, pageOf, picture, serve } from './program.mjs';

const axe = readFileSync(join(import.meta.dirname, '../node_modules/axe-core/axe.min.js'), 'utf8');
let server;
let run;
let job;
/** Names of pages and their addresses, with what must be there before one looks. */
let places = [];

before(async () => {
  server = await serve();
  run = await browser();
  const { page, context } = await pageOf(run);
  await page.goto(`${server.address}/`);
  await page.getByRole('button', { name: 'Take the example in' }).click();
  await page.waitForURL(/#\/jobs\/[^/]+$/);
  job = decodeURIComponent(page.url().split('/jobs/')[1]);
  const engine = await page.evaluate(async (id) => (await fetch(`/api/jobs/${id}`)).json(), job);
  const verdict = await page.evaluate(async (id) => (await fetch(`/api/jobs/${id}/verdicts`)).json(), job);
  const part = engine.groups[0].parts[0].id;
  const gauges = await page.evaluate(
    async ([id, of]) => (await fetch(`/api/jobs/${id}/gauges?for=${of}`)).json(),
    [job, part],
  );
  const gauge = gauges.gauges.find((each) => each.sort === 'comparison').id;
  const close = verdict.rows.find((row) => row.state === 'too-close') ?? verdict.rows[0];
  const set = `#/jobs/${job}/set/${part}?gauge=${gauge}`;
  places = [
    ['bench', '#/', '.go, .row'],
    ['new-engine', '#/new', '.stepper'],
    ['engine', `#/jobs/${job}`, '.row'],
    ['engine-open', `#/jobs/${job}?open=${engine.groups[0].kind}`, '.parts .row'],
    ['set-which', `#/jobs/${job}/set/${part}`, '.card'],
    ['set-add', `#/jobs/${job}/set/${part}?step=add&sort=gauge`, '#preset'],
    ['set-same', `${set}&step=rods`, '.card, h2'],
    ['set-rods', `${set}&step=rods&whole=1`, 'h2'],
    ['set-master', `${set}&step=master&whole=1`, 'h2'],
    ['set-zero', `${set}&step=zero&whole=1`, '.boxes'],
    ['set-proof', `${set}&step=sense&whole=1`, 'h2'],
    ['verdict', `#/jobs/${job}/verdict`, '.verdict'],
    ['verdict-open', `#/jobs/${job}/verdict?open=${encodeURIComponent(`${close.part}/${close.limit}`)}`, '.fold'],
    ['limits', `#/jobs/${job}/limits`, '#definition'],
    ['by-eye', `#/jobs/${job}/by-eye`, '#part optgroup'],
    ['done', `#/jobs/${job}/done`, 'ol.list li'],
    ['devices', '#/devices', 'h2'],
    ['pair', '#/pair/ABCD-EFGH', 'form'],
  ];
  await context.close();
});
after(async () => {
  await run?.close();
  await server?.stop();
});

async function open(page, [, hash, there]) {
  await page.goto(`${server.address}/${hash}`);
  await page.locator(there).first().waitFor({ state: 'attached', timeout: 60000 });
  await page.evaluate(() => document.fonts.ready);
}

/** What reaches beyond the right edge. */
const sideways = (page) =>
  page.evaluate(() =>
    document.documentElement.scrollWidth > innerWidth
      ? [...document.querySelectorAll('body *')]
          .filter((each) => each.getBoundingClientRect().right > innerWidth + 0.5)
          .map((each) => `${each.tagName}.${String(each.className)} ${(each.textContent ?? '').trim().slice(0, 40)}`)
          .slice(0, 5)
      : [],
  );
/** Keys, fields and links that a glove misses: less than 48 either way. Links inside a sentence are read, not hit. */
const small = (page) =>
  page.evaluate(() =>
    [...document.querySelectorAll('button, select, summary, a.key, a.row, input:not([type=radio]), label.key')]
      .filter((each) => each.checkVisibility())
      .map((each) => [each.getBoundingClientRect(), each])
      .filter(([box]) => box.height < 47.5 || box.width < 40)
      .map(
        ([box, each]) =>
          `${each.tagName} "${(each.textContent ?? '').trim().slice(0, 30)}" ${Math.round(box.width)}x${Math.round(box.height)}`,
      ),
  );

for (const language of ['en', 'de']) {
  for (const [width, height] of [
    [320, 640],
    [360, 740],
    [740, 360],
    [1280, 800],
  ]) {
    test(`nothing scrolls sideways and keys are large: ${language}, ${width} wide`, async () => {
      const { page, context, faults } = await pageOf(run, { width, height, language });
      const wrong = [];
      for (const place of places) {
        await open(page, place);
        for (const each of await sideways(page)) wrong.push(`${place[0]}: beyond the edge: ${each}`);
        for (const each of await small(page)) wrong.push(`${place[0]}: small: ${each}`);
        const words = await page.evaluate(() => document.body.innerText);
        if (/undefined|\[object|\{[a-z_]+\}|null/.test(words))
          wrong.push(`${place[0]}: ${/.*(undefined|\[object|\{[a-z_]+\}|null).*/.exec(words)[0]}`);
      }
      assert.deepEqual(wrong, []);
      assert.deepEqual(faults, []);
      await context.close();
    });
  }
}

for (const light of ['sun', 'lamp']) {
  for (const language of ['en', 'de']) {
    test(`axe finds nothing: ${light}, ${language}`, async () => {
      const { page, context } = await pageOf(run, { light, language });
      const found = [];
      for (const place of places) {
        await open(page, place);
        await page.evaluate(axe);
        const { violations } = await page.evaluate(() => globalThis.axe.run());
        for (const each of violations)
          found.push(
            `${place[0]}: ${each.id}: ${each.nodes
              .map((node) => `${node.target} ${node.failureSummary}`)
              .join(' | ')
              .slice(0, 400)}`,
          );
      }
      assert.deepEqual(found, []);
      await context.close();
    });
  }
}

test('pictures of every page', async () => {
  for (const [width, height] of [
    [360, 740],
    [360, 560],
    [740, 360],
    [1280, 800],
  ]) {
    for (const light of ['sun', 'lamp']) {
      const { page, context } = await pageOf(run, { width, height, light, language: light === 'lamp' ? 'de' : 'en' });
      for (const place of places) {
        await open(page, place);
        await picture(page, `${place[0]}-${width}x${height}-${light}`);
      }
      await context.close();
    }
  }
});
