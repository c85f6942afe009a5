/** A runtime that dies at once is told from a window that was used. */

import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, expect, test, vi } from 'vitest';
import { runDesktop } from '../../../electron/start/run-desktop.ts';
import { temporaryFolder } from '../../temporary-folder.ts';

const folder = temporaryFolder('desktop');
/** What reached the terminal. */
let passedOn: string;

beforeEach(() => {
  passedOn = '';
  vi.spyOn(process.stderr, 'write').mockImplementation((part) => {
    passedOn += String(part);
    return true;
  });
});

function run(script: string, atOnceMs: number, env: NodeJS.ProcessEnv = {}) {
  const executable = join(folder, 'electron');
  writeFileSync(executable, `#!/bin/sh\n${script}\n`, { mode: 0o755 });
  return runDesktop({ executable, args: [], env: { PATH: '/usr/bin:/bin', ...env }, atOnceMs });
}

test('an end without a fault is an end, however soon', async () => {
  expect(await run('exit 0', 10_000)).toEqual({ kind: 'ended', code: 0 });
});

test('a fault at once is told with its last words', async () => {
  expect(await run('echo first >&2; echo last >&2; exit 7', 10_000)).toEqual({
    kind: 'diedAtOnce',
    death: { executable: join(folder, 'electron'), lastWords: 'first\nlast\n', code: 7, signal: null },
  });
  expect(passedOn).toBe('first\nlast\n');
  expect(await run('kill -ABRT $$', 10_000)).toMatchObject({ death: { code: null, signal: 'SIGABRT' } });
});

test('of many words the last are kept', async () => {
  const died = await run('seq 1 5000 >&2; echo the end >&2; exit 1', 10_000);
  expect(died.kind === 'diedAtOnce' && died.death.lastWords.endsWith('5000\nthe end\n')).toBe(true);
  expect(died.kind === 'diedAtOnce' && died.death.lastWords.length).toBe(4000);
});

test('a fault after that time is the end of a window that was used', async () => {
  expect(await run('sleep 0.4; exit 7', 200)).toEqual({ kind: 'ended', code: 7 });
});

test('a file that cannot be run at all has died at once', async () => {
  const executable = join(folder, 'missing');
  expect(await runDesktop({ executable, args: [], env: {} })).toMatchObject({
    kind: 'diedAtOnce',
    death: { lastWords: expect.stringContaining('ENOENT') },
  });
});

test.each(['ELECTRON_RUN_AS_NODE', 'Electron_Run_As_Node'])('%s does not reach it', async (name) => {
  const script = `test -z "$${name}" && test "$KEPT" = yes`;
  expect(await run(script, 10_000, { [name]: '1', KEPT: 'yes' })).toEqual({ kind: 'ended', code: 0 });
});
