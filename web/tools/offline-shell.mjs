// Gives the service worker the list of files it keeps, so that the page reloads with the server away.
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const source = join(dirname(fileURLToPath(import.meta.url)), 'offline-shell.js');
const icon = join(dirname(source), '../public/icon.svg');

/** @returns {import('vite').Plugin} */
export function offlineShell() {
  return {
    name: 'fettle-offline-shell',
    apply: 'build',
    generateBundle(_options, bundle) {
      const files = [
        '/',
        '/icon.svg',
        ...Object.keys(bundle)
          .filter((name) => name !== 'index.html')
          .map((name) => `/${name}`),
      ].sort();
      // Of names and bytes: a new first page with old scripts beside it is a new shelf too. The icon has no bytes in the bundle.
      const hash = createHash('sha256').update(files.join(' '));
      for (const each of Object.keys(bundle).sort()) hash.update(bundle[each].code ?? bundle[each].source);
      hash.update(readFileSync(icon));
      const name = hash.digest('hex').slice(0, 12);
      const text = readFileSync(source, 'utf8')
        .replace('__FILES__', JSON.stringify(files))
        .replace('__NAME__', JSON.stringify(name));
      this.emitFile({ type: 'asset', fileName: 'offline.js', source: text });
    },
  };
}
