/** The storage rows of the trust table: kill, power cut, two writers, newer file, settings. */

import { type Measure, type MeasureRun, notMeasured, type RunSize } from '../measure.ts';
import { powerCutShim } from './compile-shim.ts';
import { type CrashSubject, faultsOf, type Tally } from './crash-verdict.ts';
import { countOnDisk } from './disk-counts.ts';
import { damageJournals } from './journal-damage.ts';
import { runKills } from './kill-runs.ts';
import { checkLivePragmas } from './live-pragmas.ts';
import { tryNewerFiles } from './newer-file.ts';
import { randomCuts, runPowerCuts } from './power-cuts.ts';
import { judgeShelf } from './shelf-verdict.ts';
import { runTwoWriters } from './two-writers.ts';

const SEED = 20_260_715;
const NOTHING_LOST = '0 lost, torn or corrupt';

function tallyWords(what: string, tally: Tally): string {
  const { runs, acked, lost, runsWithLoss, torn, corrupt, examples } = tally;
  const figures = `${runs} runs, ${acked} edits acknowledged: ${lost} lost in ${runsWithLoss} runs, ${torn} torn, ${corrupt} corrupt`;
  return [`${what}; ${figures}`, ...examples].join('; ');
}

async function kills(size: RunSize): Promise<readonly Measure[]> {
  const enough = size === 'long' ? { kills: 1000, midway: 300, opening: 60 } : { kills: 40, midway: 15, opening: 4 };
  const { tally, midway, opening } = await runKills(enough, SEED);
  const value = faultsOf(tally);
  const places = `${midway} between sending and acknowledgement, ${opening} while opening`;
  const what = tallyWords(`process killed (SIGKILL) at random while editing, ${places}`, tally);
  return [{ id: 'R1', what, value, unit: 'faults', goal: NOTHING_LOST, ok: value === 0 && tally.acked > tally.runs }];
}

async function powerCuts(size: RunSize): Promise<readonly Measure[]> {
  const shim = powerCutShim();
  if (!shim.ok) return ['R2', 'R2 at NORMAL'].map((id) => notMeasured(id, NOTHING_LOST, shim.reason));
  const isLong = size === 'long';
  // Most of these take the room for the log.
  const { operations: opening } = await countOnDisk({ shim: shim.path, commits: 0 });
  // The first sweep takes in the writes of a database's first transaction, the only one with a rollback journal.
  const first = Array.from({ length: isLong ? 150 : 14 }, (_, at) => at + 1);
  const edited = Array.from({ length: isLong ? 250 : 0 }, (_, at) => opening + at);
  const cutsAt = [...first, ...edited, ...randomCuts(isLong ? 1000 : 36, opening, SEED)];
  const tally = await runPowerCuts({ shim: shim.path, cutsAt, seed: SEED });
  const weakCuts = randomCuts(isLong ? 300 : 25, opening, SEED + 1);
  const weak = await runPowerCuts({
    shim: shim.path,
    cutsAt: weakCuts,
    seed: SEED + 1,
    sabotaged: true,
    // Most cuts lose something at NORMAL; a few that did show as much as all of them.
    isEnough: ({ runsWithLoss }) => !isLong && runsWithLoss >= 3,
  });
  const value = faultsOf(tally);
  const sweeps = `1 to ${first.length}${isLong ? `, ${opening} to ${opening + edited.length - 1}` : ''}`;
  const what = tallyWords(`power cut at writes ${sweeps} and at random ones`, tally);
  const weakWords = tallyWords('the same with synchronous=NORMAL, which must lose edits, or the test does not bite', {
    ...weak,
    examples: [],
  });
  return [
    { id: 'R2', what, value, unit: 'faults', goal: NOTHING_LOST, ok: value === 0 && tally.acked > tally.runs },
    { id: 'R2 at NORMAL', what: weakWords, value: weak.lost, unit: 'lost', goal: '> 0', ok: weak.lost > 0 },
  ];
}

const SHELF: CrashSubject = { child: 'shelf-child', judge: judgeShelf };

/** Of the shelf: kills, and power cuts at every write of a few steps, which are all places between two statements. */
async function shelfCrashes(size: RunSize): Promise<readonly Measure[]> {
  const isLong = size === 'long';
  const enough = isLong ? { kills: 500, midway: 150, opening: 30 } : { kills: 20, midway: 6, opening: 1 };
  const killed = await runKills(enough, SEED + 2, SHELF);
  const value = faultsOf(killed.tally);
  const what = tallyWords('process killed (SIGKILL) at random while the shelf changes', killed.tally);
  const ok = value === 0 && killed.tally.acked > 0;
  const first: Measure = { id: 'L1', what, value, unit: 'faults', goal: NOTHING_LOST, ok };
  const shim = powerCutShim();
  if (!shim.ok) return [first, notMeasured('L2', NOTHING_LOST, shim.reason)];
  const { operations: opening } = await countOnDisk({ shim: shim.path, commits: 0, child: SHELF.child });
  const every = Array.from({ length: isLong ? 400 : 24 }, (_, at) => opening + at);
  const cutsAt = [...every, ...randomCuts(isLong ? 400 : 6, opening, SEED + 3)];
  const cut = await runPowerCuts({ shim: shim.path, cutsAt, seed: SEED + 3, subject: SHELF });
  const cutWords = tallyWords(
    `power cut at writes ${opening} to ${opening + every.length - 1} and at random ones`,
    cut,
  );
  const faults = faultsOf(cut);
  return [
    first,
    { id: 'L2', what: cutWords, value: faults, unit: 'faults', goal: NOTHING_LOST, ok: faults === 0 && cut.acked > 0 },
  ];
}

async function twoWriters(size: RunSize): Promise<readonly Measure[]> {
  const enough =
    size === 'long' ? { kills: 1000, refusedAsStale: 1000, acked: 10_000 } : { kills: 8, refusedAsStale: 8, acked: 50 };
  const found = await runTwoWriters(enough);
  const value = found.lost + found.duplicateRevisions + found.otherRefusals.length + found.faults.length;
  const what =
    `two processes on one file, ${found.kills} kills, ${found.acked} edits acknowledged, ` +
    `${found.refusedAsStale} refused as changed elsewhere: ${found.lost} lost, ${found.duplicateRevisions} double ` +
    `revisions, ${found.otherRefusals.length} other refusals, ${found.faults.length} torn or corrupt`;
  const examples = [...found.otherRefusals, ...found.faults].slice(0, 4);
  return [{ id: 'R11', what: [what, ...examples].join('; '), value, unit: 'faults', goal: '0', ok: value === 0 }];
}

async function newerFiles(): Promise<readonly Measure[]> {
  const found = await tryNewerFiles();
  const wrong = found.filter(({ refusedAs, bytesUnchanged }) => refusedAs !== 'newerVersion' || !bytesUnchanged);
  const words = found.map((f) => `${f.shape}: ${f.refusedAs}, bytes ${f.bytesUnchanged ? 'unchanged' : 'CHANGED'}`);
  const what = `database of a newer version refused before any write; ${words.join('; ')}`;
  return [{ id: 'R15', what, value: wrong.length, unit: 'faults', goal: '0', ok: wrong.length === 0 }];
}

async function settings(): Promise<readonly Measure[]> {
  const pragmas = await checkLivePragmas();
  const isSeen = pragmas.connections >= 2;
  const goal = 'none amiss';
  const what = `settings of ${pragmas.connections} live connections after commits: ${pragmas.faults.join('; ') || 'all stand'}`;
  const value = pragmas.faults.length;
  const first: Measure = { id: 'R26', what, value, unit: 'amiss', goal, ok: value === 0 && isSeen };
  const shim = powerCutShim();
  if (!shim.ok) return [first, notMeasured('R26 syncs', '>= 1 a commit', shim.reason)];
  const full = await countOnDisk({ shim: shim.path, commits: 200 });
  const weak = await countOnDisk({ shim: shim.path, commits: 200, sabotaged: true });
  const syncs: Measure = {
    id: 'R26 syncs',
    what: `${full.syncs} syncs for ${full.commits} commits (at NORMAL behind the program's back: ${weak.syncs})`,
    value: full.syncs / full.commits,
    unit: 'per commit',
    goal: '>= 1, and < 1 at NORMAL',
    ok: full.syncs >= full.commits && weak.syncs < weak.commits,
  };
  return [first, syncs];
}

async function damagedRows(size: RunSize): Promise<readonly Measure[]> {
  const found = await damageJournals(size === 'long' ? 1000 : 60, SEED);
  const kinds = Object.entries(found.kinds).map(([kind, count]) => `${count} ${kind}`);
  const what =
    `single rows of the journal damaged ${found.tries} times (${kinds.join(', ')}): each is found when its header is ` +
    'opened, which is shown as far as it is sound and takes no more steps, while all other headers go on';
  const words = [what, ...found.faults.slice(0, 4)].join('; ');
  const value = found.faults.length;
  return [{ id: 'J3', what: words, value, unit: 'faults', goal: '0', ok: value === 0 && kinds.length === 4 }];
}

export const STORAGE_RUNS = [
  { ids: ['R1'], run: kills },
  { ids: ['R2', 'R2 at NORMAL'], run: powerCuts },
  { ids: ['L1', 'L2'], run: shelfCrashes },
  { ids: ['R11'], run: twoWriters },
  { ids: ['R15'], run: newerFiles },
  { ids: ['J3'], run: damagedRows },
  { ids: ['R26', 'R26 syncs'], run: settings },
] as const satisfies readonly MeasureRun[];
