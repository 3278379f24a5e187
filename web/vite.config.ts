import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vitest/config';
import { offlineShell } from './tools/offline-shell.mjs';

/** In development the program's own server answers behind the page: `fettle serve --port 8321`. */
const server = process.env['FETTLE_SERVER'] ?? 'http://127.0.0.1:8321';

export default defineConfig({
  plugins: [svelte(), offlineShell()],
  // A page that lies in memory of a program in the next room gains nothing from many small files.
  build: {
    target: 'es2022',
    modulePreload: false,
    cssCodeSplit: false,
    assetsInlineLimit: 0,
    reportCompressedSize: true,
  },
  server: { proxy: { '/api': { target: server, changeOrigin: true, headers: { origin: server } } } },
  resolve: process.env['VITEST'] ? { conditions: ['browser'] } : {},
  test: { include: ['test/**/*.test.ts'], environment: 'jsdom' },
});
