/** Ends a test run with one plain line, `N passed, N failed`, and leaves it in a file for whoever runs the tests. */

import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Reporter, TestModule } from 'vitest/node';

const RESULT_FILE = fileURLToPath(new URL('../dist/test-result.txt', import.meta.url));

export interface CaseCounts {
  readonly passed: number;
  readonly failed: number;
}

/** The part of a test module that is counted. */
export interface CountedModule {
  readonly children: { allTests(state?: 'passed' | 'failed'): Iterable<unknown> };
  /** Faults outside any test: a file that does not load, a hook that throws. */
  errors(): readonly unknown[];
}

/** Counts test cases; each fault outside of a case counts as a failed one, so that a broken file never goes unseen. */
export function countCases(modules: readonly CountedModule[], strayFaultCount: number): CaseCounts {
  const count = (state: 'passed' | 'failed') =>
    modules.reduce((sum, module) => sum + [...module.children.allTests(state)].length, 0);
  const faults = modules.reduce((sum, module) => sum + module.errors().length, strayFaultCount);
  return { passed: count('passed'), failed: count('failed') + faults };
}

export function plainLine({ passed, failed }: CaseCounts): string {
  return `${passed} passed, ${failed} failed`;
}

export class PlainLineReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], strayFaults: readonly unknown[]): void {
    const line = plainLine(countCases(modules, strayFaults.length));
    mkdirSync(new URL('.', new URL(`file:${RESULT_FILE}`)), { recursive: true });
    writeFileSync(RESULT_FILE, `${line}\n`);
    // After the other reporters' own last words.
    process.once('exit', () => console.log(line));
  }
}
