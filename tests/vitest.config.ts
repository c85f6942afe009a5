import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { LongestFirst } from './longest-first.ts';
import { PlainLineReporter } from './plain-line-reporter.ts';

/** What touches nothing but numbers and text leaves nothing behind, so that its files may share a process. */
const PURE = ['tests/core/**/*.test.ts', 'tests/references/**/*.test.ts'];

export default defineConfig({
  test: {
    root: fileURLToPath(new URL('..', import.meta.url)),
    globalSetup: ['tests/global-setup.ts'],
    setupFiles: ['tests/property-seed.ts'],
    reporters: ['default', new PlainLineReporter()],
    pool: 'forks',
    maxWorkers: 2,
    // Threads that tests start read TypeScript by way of WebAssembly: see `electron/solver/cut-planner.ts`.
    execArgv: ['--wasm-wrapper-tiering-budget=1000000000'],
    // Limits are there to end what hangs: ten times what a quick machine takes for the longest test that names none.
    testTimeout: 120_000,
    hookTimeout: 120_000,
    // A page on a busy machine may take longer than the second that polls are given by default.
    expect: { poll: { timeout: 60_000 } },
    sequence: { sequencer: LongestFirst },
    // Projects run in the order of their names.
    projects: [
      { extends: true, test: { name: 'apart', include: ['tests/**/*.test.{ts,tsx}'], exclude: PURE } },
      { extends: true, test: { name: 'together', include: PURE, isolate: false } },
    ],
  },
});
