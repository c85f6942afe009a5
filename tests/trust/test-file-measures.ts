/** Rows of the trust table that are test files already: they are run at the asked size, and their failures counted. */

import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import type { MeasureRun, RunSize } from '../measure.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const RUNNER = join(dirname(createRequire(import.meta.url).resolve('vitest/package.json')), 'vitest.mjs');

interface TestReport {
  readonly numTotalTests: number;
  readonly numPassedTests: number;
  readonly testResults: readonly { readonly assertionResults: readonly TestCase[] }[];
}
interface TestCase {
  readonly title: string;
  readonly status: string;
  readonly failureMessages: readonly string[];
}

async function runTestFile(file: string, size: RunSize): Promise<TestReport> {
  const folder = mkdtempSync(join(tmpdir(), 'evenrun-report-'));
  const output = join(folder, 'report.json');
  const options = ['run', '--config', 'tests/vitest.config.ts', file, '--reporter=json', `--outputFile=${output}`];
  const timeouts = ['--testTimeout=7200000', '--hookTimeout=7200000'];
  const env = { ...process.env, EVENRUN_LONG: size === 'long' ? '1' : '0' };
  try {
    await new Promise<void>((resolve, reject) => {
      const child = spawn(process.execPath, [RUNNER, ...options, ...timeouts], { cwd: ROOT, env, stdio: 'ignore' });
      child.once('error', reject);
      child.once('close', () => resolve());
    });
    return JSON.parse(readFileSync(output, 'utf8')) as TestReport;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function testFileRun(id: string, what: string, file: string): MeasureRun {
  return {
    ids: [id],
    async run(size) {
      const report = await runTestFile(file, size);
      const value = report.numTotalTests - report.numPassedTests;
      const cases = report.testResults.flatMap(({ assertionResults }) => assertionResults);
      const failed = cases.filter(({ status }) => status !== 'passed');
      const words = (failed.length > 0 ? failed : cases).map(({ title, failureMessages }) =>
        [title, failureMessages[0]?.split('\n')[0]].filter(Boolean).join(': '),
      );
      const ok = value === 0 && report.numTotalTests > 0;
      return [{ id, what: `${what}: ${words.join('; ')}`, value, unit: 'failed', goal: '0', ok }];
    },
  };
}

export const TEST_FILE_RUNS: readonly MeasureRun[] = [
  testFileRun('R17', 'malformed files, lists and texts', 'tests/core/header/fuzz.test.ts'),
  testFileRun('R19', 'model = memory = disk = undo and redo', 'tests/electron/store/model.test.ts'),
  testFileRun('C9', 'moves against another search', 'tests/references/wide-moves.test.ts'),
  testFileRun('C9b', 'moves with more freedom', 'tests/core/moves/freedom.test.ts'),
  testFileRun('C10', 'best target against all targets', 'tests/core/moves/best-target.test.ts'),
];
