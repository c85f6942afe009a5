import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { PlainLineReporter } from './plain-line-reporter.ts';

export default defineConfig({
  test: {
    root: fileURLToPath(new URL('..', import.meta.url)),
    include: ['tests/**/*.test.{ts,tsx}'],
    globalSetup: ['tests/global-setup.ts'],
    reporters: ['default', new PlainLineReporter()],
    pool: 'forks',
    maxWorkers: 2,
    testTimeout: 60_000,
    hookTimeout: 60_000,
    // A page on a busy machine may take longer than the second that polls are given by default.
    expect: { poll: { timeout: 10_000 } },
  },
});
