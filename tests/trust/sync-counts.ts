/** R26: how often the program asks the disk to make things durable, counted from outside by the shim. */

import { mkdirSync, mkdtempSync, readFileSync, realpathSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { startChild } from './child-process.ts';

export interface SyncCount {
  readonly commits: number;
  readonly syncs: number;
}

const SABOTAGE = new URL('./sabotage-synchronous.ts', import.meta.url).href;

/** Runs an editing child to its end; with `sabotaged`, at synchronous=NORMAL behind its back. */
export async function countSyncs(shim: string, commits: number, sabotaged: boolean): Promise<SyncCount> {
  const root = realpathSync(mkdtempSync(join(tmpdir(), 'evenrun-syncs-')));
  try {
    const folder = join(root, 'data');
    mkdirSync(folder);
    const counts = join(root, 'counts');
    const env = { LD_PRELOAD: shim, PCUT_FOLDER: folder, PCUT_COUNTS: counts };
    const end = await startChild({ folder, seed: 26, commits, env, ...(sabotaged ? { preload: SABOTAGE } : {}) }).ended;
    if (end.status !== 0) throw new Error(`the child failed (${end.status}): ${end.stderr}`);
    const syncs = Number(readFileSync(counts, 'utf8').trim().split(' ')[1]);
    return { commits: end.lines.filter(({ kind }) => kind === 'acked').length, syncs };
  } finally {
    rmSync(root, { recursive: true });
  }
}
