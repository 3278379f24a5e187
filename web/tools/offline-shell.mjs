// Gives the service worker the list of files it keeps, so that the page reloads with the server away.
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const source = join(dirname(fileURLToPath(import.meta.url)), 'offline-shell.js');

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
      const name = createHash('sha256').update(files.join(' ')).digest('hex').slice(0, 12);
      const text = readFileSync(source, 'utf8')
        .replace('__FILES__', JSON.stringify(files))
        .replace('__NAME__', JSON.stringify(name));
      this.emitFile({ type: 'asset', fileName: 'offline.js', source: text });
    },
  };
}
