/** What the program asks of the disk, counted from outside by the shim: R26, and where power cuts can come. */

import { mkdirSync, mkdtempSync, readFileSync, realpathSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { startChild } from './child-process.ts';

export interface DiskCount {
  /** Edits acknowledged. */
  readonly commits: number;
  /** Writes, truncates, syncs and unlinks. */
  readonly operations: number;
  readonly syncs: number;
}

export interface CountOptions {
  readonly shim: string;
  /** Edits to make between opening the database and closing it. */
  readonly commits: number;
  /** At synchronous=NORMAL behind the program's back. */
  readonly sabotaged?: boolean;
  /** What is edited; left out: a header. */
  readonly child?: 'editing-child' | 'shelf-child';
  /** Puts something into the data folder first. */
  readonly prepare?: (folder: string) => void;
}

/** Runs an editing child to its end. */
export async function countOnDisk({ shim, commits, sabotaged, child, prepare }: CountOptions): Promise<DiskCount> {
  const root = realpathSync(mkdtempSync(join(tmpdir(), 'evenrun-counts-')));
  try {
    const folder = join(root, 'data');
    mkdirSync(folder);
    prepare?.(folder);
    const counts = join(root, 'counts');
    const env = { LD_PRELOAD: shim, PCUT_FOLDER: folder, PCUT_COUNTS: counts };
    const preload = sabotaged === true ? { preload: 'sabotage-synchronous' as const } : {};
    const end = await startChild({ folder, seed: 26, commits, env, child: child ?? 'editing-child', ...preload }).ended;
    if (end.status !== 0) throw new Error(`the child failed (${end.status}): ${end.stderr}`);
    const [operations = 0, syncs = 0] = readFileSync(counts, 'utf8').trim().split(' ').map(Number);
    return { commits: end.lines.filter(({ kind }) => kind === 'acked').length, operations, syncs };
  } finally {
    rmSync(root, { recursive: true });
  }
}
