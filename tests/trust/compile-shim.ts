/** Compiles the power-cut shim with the machine's own C compiler. */

import { execFileSync } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import process from 'node:process';
import { fileURLToPath } from 'node:url';

export type Shim = { readonly ok: true; readonly path: string } | { readonly ok: false; readonly reason: string };

const SOURCE = fileURLToPath(new URL('./pcut.c', import.meta.url));
let compiled: Shim | undefined;

function compile(): Shim {
  if (process.platform !== 'linux') {
    return { ok: false, reason: `the power-cut shim is for Linux, and this is ${process.platform}` };
  }
  const path = join(mkdtempSync(join(tmpdir(), 'evenrun-shim-')), 'pcut.so');
  const failures: string[] = [];
  for (const compiler of [process.env['CC'] ?? 'cc', 'gcc', 'clang']) {
    try {
      execFileSync(compiler, ['-O2', '-shared', '-fPIC', '-o', path, SOURCE, '-ldl'], { stdio: 'pipe' });
      return { ok: true, path };
    } catch (error) {
      failures.push(`${compiler}: ${error instanceof Error ? (error.message.split('\n')[0] ?? '') : String(error)}`);
    }
  }
  return { ok: false, reason: `no C compiler could build the power-cut shim (${failures.join('; ')})` };
}

/** Compiled once per process. */
export function powerCutShim(): Shim {
  compiled ??= compile();
  return compiled;
}
