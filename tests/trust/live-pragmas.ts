/** R26: the settings that the program's own connections run under after they have committed. */

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { startChild } from './child-process.ts';

const WANTED: Readonly<Record<string, unknown>> = {
  synchronous: 2,
  journal_mode: 'wal',
  foreign_keys: 1,
  trusted_schema: 0,
  cell_size_check: 1,
  mmap_size: 0,
};
/** Before 3.51.3 a checkpoint could lose committed writes (sqlite.org/wal.html, section 11). */
const OLDEST_ENGINE = [3, 51, 3] as const;

function isNewEnough(engine: string): boolean {
  const found = engine.split('.').map(Number);
  for (const [index, wanted] of OLDEST_ENGINE.entries()) {
    if ((found[index] ?? 0) !== wanted) return (found[index] ?? 0) > wanted;
  }
  return true;
}

/** What does not stand as it must, in words; `connections` says how many were looked at. */
export async function checkLivePragmas(): Promise<{
  readonly connections: number;
  readonly faults: readonly string[];
}> {
  const folder = mkdtempSync(join(tmpdir(), 'evenrun-pragmas-'));
  try {
    // Twice: the library's default shows only from the second opening on.
    const lives = [];
    for (const seed of [1, 2]) lives.push(await startChild({ folder, seed, commits: 3, preload: 'spy-pragmas' }).ended);
    const seen = lives.flatMap(({ lines }) => lines.flatMap((line) => (line.kind === 'pragmas' ? [line.values] : [])));
    const faults = seen.flatMap((values) => [
      ...Object.entries(WANTED)
        .filter(([name, wanted]) => values[name] !== wanted)
        .map(([name, wanted]) => `${name} is ${String(values[name])}, not ${String(wanted)}`),
      ...(isNewEnough(String(values['engine'])) ? [] : [`SQLite ${String(values['engine'])} is too old`]),
    ]);
    const failed = lives.filter(({ status }) => status !== 0).map(({ stderr }) => `a child failed: ${stderr}`);
    return { connections: seen.length, faults: [...failed, ...faults] };
  } finally {
    rmSync(folder, { recursive: true });
  }
}
