import { defineConfig } from 'vitest/config';

/** The page in a real browser against the real program: no retries, one file after another. */
export default defineConfig({
  test: {
    include: ['e2e/**/*.test.ts'],
    environment: 'node',
    fileParallelism: false,
    retry: 0,
    testTimeout: 90000,
    hookTimeout: 60000,
  },
});
