/** R1: the program's backend is killed at random moments while it edits, over and over on the same files. */

import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { startChild } from './child-process.ts';
import { addVerdict, EMPTY_TALLY, judgeCrash, type Tally, type Verdict } from './crash-verdict.ts';
import { randomBelow, seededRandom } from './seeded-random.ts';

/** A fresh folder now and then: some kills meet an old, grown database, others one just made. */
const KILLS_PER_FOLDER = 25;
const LONGEST_WAIT_MS = 40;

async function killOnce(folder: string, seed: number): Promise<Verdict> {
  const random = seededRandom(seed);
  const child = startChild({ folder, seed });
  // One kill in eight comes while the program starts, opens or migrates; the others while it commits.
  if (randomBelow(random, 8) > 0) await child.first('acked');
  else await wait(100);
  await wait(random() * LONGEST_WAIT_MS);
  child.process.kill('SIGKILL');
  const end = await child.ended;
  if (end.signal !== 'SIGKILL') throw new Error(`the child ended by itself (${end.status}): ${end.stderr}`);
  return await judgeCrash(folder, end.lines);
}

/** One child lives to its end, which leaves the compiled modules for those that do not. */
async function liveOnce(folder: string): Promise<void> {
  mkdirSync(folder);
  const end = await startChild({ folder, seed: 1, commits: 1 }).ended;
  if (end.status !== 0) throw new Error(`the child failed (${end.status}): ${end.stderr}`);
}

export async function runKills(kills: number, firstSeed = 1): Promise<Tally> {
  const root = mkdtempSync(join(tmpdir(), 'evenrun-kill-'));
  let tally = EMPTY_TALLY;
  try {
    await liveOnce(join(root, 'first'));
    for (let kill = 0; kill < kills; kill += 1) {
      const folder = join(root, `data-${Math.floor(kill / KILLS_PER_FOLDER)}`);
      mkdirSync(folder, { recursive: true });
      const seed = firstSeed + kill;
      tally = addVerdict(tally, await killOnce(folder, seed), `kill, seed ${seed}`);
    }
  } finally {
    rmSync(root, { recursive: true });
  }
  return tally;
}
