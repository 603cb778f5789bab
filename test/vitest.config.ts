import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  test: {
    include: ['test/**/*.test.ts'],
    globalSetup: ['test/helpers/build.ts'],
    // By itself it would leave one of two cores idle.
    maxWorkers: Math.max(2, availableParallelism() - 1),
    // What a page drawn in software is waited for.
    expect: { poll: { timeout: 15_000 } },
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
