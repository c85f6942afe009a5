/** R11: two processes edit one header in one file at once, and each is killed and started again at random. */

import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { startChild } from './child-process.ts';
import { readIndependently } from './independent-reader.ts';
import type { ChildLine } from './protocol.ts';
import { randomBelow, seededRandom } from './seeded-random.ts';

/** Steps that a writer may send before it is killed. */
const MOST_STEPS = 60;
/** A kill comes this much later at most than the line it waited for. */
const LATEST_MS = 6;
/** Lives for each that is wanted, before a run gives up that does not meet what it looks for. */
const PATIENCE = 10;

/** What must have been seen before a run may end, however fast or slow the machine. */
export interface EnoughCollisions {
  readonly kills: number;
  /** Edits refused because the other process had been there first. */
  readonly refusedAsStale: number;
  readonly acked: number;
}

export interface TwoWritersFinding extends EnoughCollisions {
  readonly lost: number;
  /** Revisions acknowledged to both processes. */
  readonly duplicateRevisions: number;
  /** Refusals of any other kind, such as a busy database shown to the user. */
  readonly otherRefusals: readonly string[];
  readonly faults: readonly string[];
}

/** What all lives of both writers have told so far. */
class Told {
  readonly lines: ChildLine[] = [];
  kills = 0;
  readonly #enough: EnoughCollisions;

  constructor(enough: EnoughCollisions) {
    this.#enough = enough;
  }

  add(lines: readonly ChildLine[]): void {
    this.lines.push(...lines);
    this.kills += 1;
    if (this.kills > this.#enough.kills * PATIENCE)
      throw new Error(`${this.kills} kills, and only ${staleOf(this.lines)} collisions`);
  }

  isEnough(): boolean {
    const { kills, refusedAsStale, acked } = this.#enough;
    return this.kills >= kills && staleOf(this.lines) >= refusedAsStale && ackedSteps(this.lines).length >= acked;
  }
}

function refusalsOf(lines: readonly ChildLine[]) {
  return lines.flatMap((line) => (line.kind === 'refused' ? line.problems : []));
}

function staleOf(lines: readonly ChildLine[]): number {
  return refusalsOf(lines).filter(({ kind }) => kind === 'changedElsewhere').length;
}

function ackedSteps(lines: readonly ChildLine[]): readonly string[] {
  return lines.flatMap((line) => (line.kind === 'acked' ? line.stepIds : []));
}

/** Keeps one writer alive until enough was seen, whatever happens to it. */
async function writer(folder: string, seed: number, told: Told): Promise<void> {
  const random = seededRandom(seed);
  for (let life = 0; !told.isEnough(); life += 1) {
    const child = startChild({ folder, seed: seed * 1000 + life, mode: 'shared' });
    await child.seen('sent', 1 + randomBelow(random, MOST_STEPS));
    await pause(random() * LATEST_MS);
    child.process.kill('SIGKILL');
    const end = await child.ended;
    if (end.signal !== 'SIGKILL') throw new Error(`a writer ended by itself (${end.status}): ${end.stderr}`);
    told.add(end.lines);
  }
}

/** Starts with a header in place, so that both writers work on the same one. */
async function prepare(folder: string): Promise<void> {
  mkdirSync(folder);
  const end = await startChild({ folder, seed: 1, commits: 1 }).ended;
  if (end.status !== 0) throw new Error(`the first child failed: ${end.stderr}`);
}

function judge({ lines, kills }: Told, folder: string): TwoWritersFinding {
  const reading = readIndependently(folder);
  const there = new Set(reading.headers.flatMap(({ stepIds }) => stepIds));
  const steps = ackedSteps(lines);
  const revisions = lines.flatMap((line) => (line.kind === 'acked' ? [line.revision] : []));
  const others = refusalsOf(lines).filter(({ kind }) => kind !== 'changedElsewhere');
  return {
    kills,
    acked: steps.length,
    refusedAsStale: staleOf(lines),
    lost: steps.filter((stepId) => !there.has(stepId)).length,
    duplicateRevisions: revisions.length - new Set(revisions).size,
    otherRefusals: others.map((problem) => JSON.stringify(problem)),
    faults: [...reading.corrupt, ...reading.torn],
  };
}

/** Goes on until the writers have collided often enough; throws when that takes more than ten times as many kills. */
export async function runTwoWriters(enough: EnoughCollisions): Promise<TwoWritersFinding> {
  const root = mkdtempSync(join(tmpdir(), 'evenrun-two-'));
  const folder = join(root, 'data');
  try {
    await prepare(folder);
    const told = new Told(enough);
    await Promise.all([writer(folder, 11, told), writer(folder, 12, told)]);
    return judge(told, folder);
  } finally {
    rmSync(root, { recursive: true });
  }
}
