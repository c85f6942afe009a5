/** R11: two processes edit one header in one file at once, and each is killed and started again at random. */

import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { setTimeout as wait } from 'node:timers/promises';
import { startChild } from './child-process.ts';
import { readIndependently } from './independent-reader.ts';
import type { ChildLine } from './protocol.ts';
import { seededRandom } from './seeded-random.ts';

export interface TwoWritersFinding {
  readonly kills: number;
  readonly acked: number;
  /** Edits refused because the other process had been there first; some are expected, or nothing was tested. */
  readonly refusedAsStale: number;
  readonly lost: number;
  /** Revisions acknowledged to both processes. */
  readonly duplicateRevisions: number;
  /** Refusals of any other kind, such as a busy database shown to the user. */
  readonly otherRefusals: readonly string[];
  readonly faults: readonly string[];
}

/** Keeps one writer alive until the end, whatever happens to it; returns all that its lives told. */
async function writer(folder: string, seed: number, untilMs: number): Promise<{ lines: ChildLine[]; kills: number }> {
  const random = seededRandom(seed);
  const lines: ChildLine[] = [];
  let kills = 0;
  while (performance.now() < untilMs) {
    const child = startChild({ folder, seed: seed * 1000 + kills, mode: 'shared' });
    await child.first('opened');
    await wait(Math.min(random() * 600, Math.max(0, untilMs - performance.now())));
    child.process.kill('SIGKILL');
    const end = await child.ended;
    if (end.signal !== 'SIGKILL') throw new Error(`a writer ended by itself (${end.status}): ${end.stderr}`);
    lines.push(...end.lines);
    kills += 1;
  }
  return { lines, kills };
}

/** Starts with a header in place, so that both writers work on the same one. */
async function prepare(folder: string): Promise<void> {
  mkdirSync(folder);
  const end = await startChild({ folder, seed: 1, commits: 1 }).ended;
  if (end.status !== 0) throw new Error(`the first child failed: ${end.stderr}`);
}

function judge(lines: readonly ChildLine[], kills: number, folder: string): TwoWritersFinding {
  const acks = lines.filter((line) => line.kind === 'acked');
  const refusals = lines.filter((line) => line.kind === 'refused').flatMap((line) => line.problems);
  const stale = refusals.filter(({ kind }) => kind === 'changedElsewhere');
  const reading = readIndependently(folder);
  const there = new Set(reading.headers.flatMap(({ stepIds }) => stepIds));
  const ackedSteps = acks.flatMap(({ stepIds }) => stepIds);
  const revisions = acks.map(({ revision }) => revision);
  return {
    kills,
    acked: ackedSteps.length,
    refusedAsStale: stale.length,
    lost: ackedSteps.filter((stepId) => !there.has(stepId)).length,
    duplicateRevisions: revisions.length - new Set(revisions).size,
    otherRefusals: refusals.filter(({ kind }) => kind !== 'changedElsewhere').map((problem) => JSON.stringify(problem)),
    faults: [...reading.corrupt, ...reading.torn],
  };
}

export async function runTwoWriters(seconds: number): Promise<TwoWritersFinding> {
  const root = mkdtempSync(join(tmpdir(), 'evenrun-two-'));
  const folder = join(root, 'data');
  try {
    await prepare(folder);
    const untilMs = performance.now() + seconds * 1000;
    const both = await Promise.all([writer(folder, 11, untilMs), writer(folder, 12, untilMs)]);
    const lines = both.flatMap((one) => one.lines);
    return judge(lines, both[0].kills + both[1].kills, folder);
  } finally {
    rmSync(root, { recursive: true });
  }
}
