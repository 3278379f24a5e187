// The phone of another machine: TLS, pairing by the printed address, a reading, a reload with the server away. own_network.sh makes the network.
import { createHash, X509Certificate } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, BrowserContext } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { Hand, openBrowser, phone } from './hand';
import { Program } from './program';
import { linnet, places } from './shop';

const address = '10.77.0.1';
const open = ['--open-to', address];
const program = new Program();
let trusting: Browser;
let job: string;
let pairing: { readonly address: string; readonly fingerprint: string };
let context: BrowserContext;

beforeAll(async () => {
  await program.start(open);
  job = await linnet(program);
  const certificate = new X509Certificate(readFileSync(join(program.folder, 'shop.fettle.keys/certificate.pem')));
  const key = createHash('sha256')
    .update(certificate.publicKey.export({ type: 'spki', format: 'der' }))
    .digest('base64');
  // As on a phone where the certificate was installed as one to be trusted.
  trusting = await openBrowser([`--ignore-certificate-errors-spki-list=${key}`]);
  context = await phone(trusting);
  pairing = (await program.post('api/pairing', {})) as typeof pairing;
});
afterAll(async () => {
  await trusting.close();
  await program.end();
});

test('a certificate that nobody trusts is not walked into, and a stranger is told that the phone must be let in', async () => {
  const doubting = await openBrowser();
  const page = await (await phone(doubting)).newPage();
  await expect(page.goto(pairing.address)).rejects.toThrow(/ERR_CERT_AUTHORITY_INVALID/);
  await doubting.close();
  const stranger = await phone(trusting);
  const theirs = await stranger.newPage();
  await theirs.goto(new URL('/', pairing.address).href);
  await theirs.getByText('This device is not paired with this server.').waitFor();
  expect(await theirs.evaluate(() => document.body.innerText)).not.toContain('Linnet 4');
  await stranger.close();
});

test('a phone is let in by the code of the printed address, and reads', async () => {
  const page = await context.newPage();
  await page.goto(pairing.address);
  expect(await page.evaluate(() => isSecureContext)).toBe(true);
  await page.getByText(pairing.fingerprint.replaceAll(':', '')).first().waitFor();
  await page.getByLabel('Name of this phone').fill('JB at the bench');
  const hand = new Hand(page);
  await hand.key('Let it in');
  await page.getByText('This phone is known as "JB at the bench".').waitFor();
  const known = (await program.get('api/devices')) as { devices: readonly { name: string }[] };
  expect(known.devices.map((each) => each.name)).toEqual(['JB at the bench']);

  await page.goto(new URL(`/#/jobs/${job}/round/bore-1`, pairing.address).href);
  await hand.waitLit('TOP · thrust');
  await hand.read('71');
  await hand.waitLit('MIDDLE · thrust');
  await hand.saved();
  expect((await places(program, job, 'bore-1'))[0]?.readings.map((each) => each.text)).toEqual(['71 ↺']);
});

test('over TLS the page reloads with the server away, and all arrives when it is back', async () => {
  const page = context.pages()[0];
  if (page === undefined) throw new Error('the phone has its page');
  const hand = new Hand(page);
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
  await program.kill();
  await hand.waitLit('MIDDLE · thrust');
  await hand.digits('31');
  await hand.key('ENTER');
  await page.getByText('1 unsent').waitFor();
  await page.reload();
  await hand.waitLit('BOTTOM · thrust');
  await page.getByText('1 unsent').waitFor();
  await hand.digits('18');
  await hand.key('ENTER');
  await page.getByText('2 unsent').waitFor();
  await program.start(open);
  await hand.saved();
  expect(
    (await places(program, job, 'bore-1')).slice(0, 3).map((place) => place.readings.map((each) => each.text)),
  ).toEqual([['71 ↺'], ['31 ↺'], ['18 ↺']]);
});
