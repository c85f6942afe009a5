/** R1: the program's backend is killed at random moments while it edits, over and over on the same files. */

import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { startChild } from './child-process.ts';
import {
  addVerdict,
  type CrashSubject,
  EMPTY_TALLY,
  HEADER_SUBJECT,
  type Tally,
  type Verdict,
} from './crash-verdict.ts';
import type { ChildLine } from './protocol.ts';
import { randomBelow, seededRandom } from './seeded-random.ts';

/** A fresh folder now and then: some kills meet an old, grown database, others one just made. */
const KILLS_PER_FOLDER = 25;
/** Commits that a child may make before it is killed. */
const MOST_COMMITS = 8;
/** A kill comes this much later at most than the line it waited for; longer than a commit or an opening mostly takes. */
const LATEST_MS = 6;
/** Tries for each kill that is wanted, before a run gives up that does not meet what it looks for. */
const PATIENCE = 10;

/** What must have been seen before a run may end, however fast or slow the machine. */
export interface EnoughKills {
  readonly kills: number;
  /** Kills between the sending of a step and its acknowledgement. */
  readonly midway: number;
  /** Kills after the program has begun to open its database and before it has told the header. */
  readonly opening: number;
}

export interface KillTally extends EnoughKills {
  readonly tally: Tally;
}

interface Killed {
  readonly verdict: Verdict;
  readonly lines: readonly ChildLine[];
}

async function killOnce(folder: string, seed: number, { child: childName, judge }: CrashSubject): Promise<Killed> {
  const random = seededRandom(seed);
  const child = startChild({ folder, seed, child: childName });
  // One kill in six is aimed at the opening, the others at a step under way.
  if (randomBelow(random, 6) === 0) await child.seen('started');
  else await child.seen('sent', 1 + randomBelow(random, MOST_COMMITS));
  await pause(random() * LATEST_MS);
  child.process.kill('SIGKILL');
  const end = await child.ended;
  if (end.signal !== 'SIGKILL') throw new Error(`the child ended by itself (${end.status}): ${end.stderr}`);
  return { verdict: await judge(folder, end.lines), lines: end.lines };
}

/** One child lives to its end, which leaves the compiled modules for those that do not. */
async function liveOnce(folder: string, child: CrashSubject['child']): Promise<void> {
  mkdirSync(folder);
  const end = await startChild({ folder, seed: 1, commits: 1, child }).ended;
  if (end.status !== 0) throw new Error(`the child failed (${end.status}): ${end.stderr}`);
}

function counted(seen: KillTally, { verdict, lines }: Killed, where: string): KillTally {
  const last = lines.at(-1)?.kind;
  return {
    tally: addVerdict(seen.tally, verdict, where),
    kills: seen.kills + 1,
    midway: seen.midway + (last === 'sent' ? 1 : 0),
    opening: seen.opening + (last === 'started' ? 1 : 0),
  };
}

function isEnough(seen: EnoughKills, enough: EnoughKills): boolean {
  return seen.kills >= enough.kills && seen.midway >= enough.midway && seen.opening >= enough.opening;
}

/** Kills until it has seen enough; throws when that takes more than ten times as many kills. */
export async function runKills(
  enough: EnoughKills,
  firstSeed: number,
  subject: CrashSubject = HEADER_SUBJECT,
): Promise<KillTally> {
  const root = mkdtempSync(join(tmpdir(), 'evenrun-kill-'));
  let seen: KillTally = { tally: EMPTY_TALLY, kills: 0, midway: 0, opening: 0 };
  try {
    await liveOnce(join(root, 'first'), subject.child);
    while (!isEnough(seen, enough)) {
      if (seen.kills >= enough.kills * PATIENCE)
        throw new Error(`${seen.kills} kills: ${seen.midway} midway, ${seen.opening} while opening`);
      const folder = join(root, `data-${Math.floor(seen.kills / KILLS_PER_FOLDER)}`);
      mkdirSync(folder, { recursive: true });
      const seed = firstSeed + seen.kills;
      seen = counted(seen, await killOnce(folder, seed, subject), `kill, seed ${seed}`);
    }
  } finally {
    rmSync(root, { recursive: true });
  }
  return seen;
}
