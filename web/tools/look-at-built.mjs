// Looks at the page as it was built: how large it is packed, and that no figure is made in it.
// What this holds: in the built script no text is turned into a number that can carry a size (parseFloat, Number(text),
// valueAsNumber, toFixed, toPrecision), and no factor between inch and millimetre stands in it. That a count or a pixel is added up
// somewhere is fine; with the lint rules of eslint.config.js (no arithmetic on members that hold measured values, no unary plus) a
// measured value has no way to become a number. It does not hold against somebody who works digit by digit to get round it.
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';

const most = 150 * 1024;
const dist = join(import.meta.dirname, '..', 'dist');
const names = readdirSync(dist, { recursive: true, withFileTypes: true })
  .filter((each) => each.isFile())
  .map((each) => join(each.parentPath, each.name));
const size = names.reduce((sum, name) => sum + gzipSync(readFileSync(name), { level: 9 }).length, 0);
console.log(`the page, packed: ${size} bytes of ${most} allowed`);
const faults = size > most ? ['the page is too large'] : [];

const figures = [
  ['parseFloat', /\bparseFloat\b/],
  ['Number(text)', /\bNumber\(/],
  ['valueAsNumber', /\bvalueAsNumber\b/],
  ['toFixed', /\btoFixed\b/],
  ['toPrecision', /\btoPrecision\b/],
  ['inch to millimetre', /\b25\.4\b|\b0?\.0393\d*/],
];
/** The library's own uses, looked at by hand: none of them is given a reading. */
const allowed = ['!isNaN(Number('];
for (const name of names.filter((each) => each.endsWith('.js'))) {
  const text = readFileSync(name, 'utf8');
  for (const [what, pattern] of figures) {
    const found = pattern.exec(text);
    if (found === null) continue;
    const around = text.slice(Math.max(0, found.index - 60), found.index + 60);
    if (!allowed.some((each) => around.includes(each))) faults.push(`${what} in ${name}: ...${around}...`);
  }
  if (/\bstyle="/.test(text)) faults.push(`an inline style, which the page's rules forbid, in ${name}`);
}
const html = readFileSync(join(dist, 'index.html'), 'utf8');
if (/<script(?![^>]*\bsrc=)[^>]*>|<style|\sstyle=|\son[a-z]+=/.test(html))
  faults.push('index.html holds a script or a style of its own');
const lock = readFileSync(join(dist, '..', 'package-lock.json'), 'utf8');
if (lock.includes('"resolved"')) faults.push('package-lock.json names addresses');
for (const fault of faults) console.error(fault);
process.exit(faults.length === 0 ? 0 : 1);
