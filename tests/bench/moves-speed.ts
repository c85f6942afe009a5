/** How fast moves are found, how much faster than a mixed-integer solver, and how many known ones are missed. */

import { createRequire } from 'node:module';
import { performance } from 'node:perf_hooks';
import type { Header } from '../../core/header/header.ts';
import type { MoveOptions } from '../../core/moves/question.ts';
import { suggestMoves } from '../../core/moves/suggest-moves.ts';
import { disturb, FULL_SHELF } from '../core/moves/disturb.ts';
import { exactMoves } from '../core/moves/exact-moves.ts';
import { fittedHeader, lengthOf, shopPrimary } from '../core/moves/made-headers.ts';
import { seededRandom } from '../core/path/made-primaries.ts';
import { type Measure, quantile, type RunSize, within } from '../measure.ts';
import { straightsModel } from '../references/straights-model.ts';
import { calibrate } from './calibration.ts';

const PIECES = 20;
const SLIP_MM = 6;
const MEDIAN_GOAL_MS = 20;
const TAIL_GOAL_MS = 200;
const RATIO_GOAL = 50;
const MISS_GOAL = 0.01;

/** A tacked primary of 20 pieces that closes and is out of its band by 4 to 15 mm, with a quarter inch of slip. */
function offLength(seed: number): Header {
  const random = seededRandom(seed * 7919);
  const primary = shopPrimary({ pieces: PIECES, random });
  const offMm = (random() < 0.5 ? -1 : 1) * (4 + Math.floor(random() * 23) / 2);
  return fittedHeader(primary, { targetMm: lengthOf(primary) + offMm, slipMm: SLIP_MM });
}

function timed(act: () => unknown): number {
  const startMs = performance.now();
  act();
  return performance.now() - startMs;
}

/** Without a shelf (P4, P4b), and with U-bends of three CLRs on it, so that every bend may be swapped (P4s, P4t). */
export function measureMoves(size: RunSize): readonly Measure[] {
  return [
    ...measureSearch(size, { ids: ['P4', 'P4b'], shelf: 'no shelf', options: {} }),
    ...measureSearch(size, { ids: ['P4s', 'P4t'], shelf: 'three CLRs on the shelf', options: { stock: FULL_SHELF } }),
  ];
}

interface Search {
  /** Of the median and of the 99th percentile. */
  readonly ids: readonly [string, string];
  readonly shelf: string;
  readonly options: MoveOptions;
}

function measureSearch(size: RunSize, { ids, shelf, options }: Search): readonly Measure[] {
  const runs = size === 'long' ? 400 : 60;
  // The compiler settles in on headers that are not measured.
  for (let seed = 1; seed <= 40; seed += 1) suggestMoves(offLength(100_000 + seed), 'own', options);
  const samplesMs = Array.from({ length: runs }, (_, run) => {
    const header = offLength(run + 1);
    return timed(() => suggestMoves(header, 'own', options));
  });
  const { factor, words } = calibrate();
  const what = `moves of every kind for a primary of ${PIECES} pieces, ${shelf}, ${runs} headers (${words})`;
  return [
    within(MEDIAN_GOAL_MS * factor, { id: ids[0], what: `${what}, median`, value: quantile(samplesMs, 0.5) }),
    within(TAIL_GOAL_MS * factor, { id: ids[1], what: `${what}, 99th percentile`, value: quantile(samplesMs, 0.99) }),
  ];
}

interface Highs {
  readonly solve: (text: string) => unknown;
}

/** Sums of both times over the same problems, the model's text made beforehand and solved once with all goals weighted. */
export async function measureAgainstHighs(size: RunSize): Promise<readonly Measure[]> {
  const highs: Highs = await createRequire(import.meta.url)('highs')();
  const options = { kinds: ['straights'], maxMoves: 1 } as const;
  const runs = size === 'long' ? 100 : 20;
  for (let seed = 1; seed <= 40; seed += 1) exactMoves(offLength(100_000 + seed), 'own', options);
  let ownMs = 0;
  let highsMs = 0;
  for (let seed = 1; seed <= runs; seed += 1) {
    const header = offLength(seed);
    const [primary] = header.primaries;
    if (primary === undefined) continue;
    const { weighted } = straightsModel(header, primary);
    ownMs += timed(() => exactMoves(header, 'own', options));
    highsMs += timed(() => highs.solve(weighted));
  }
  const value = highsMs / ownMs;
  const what = `straights only, ${runs} problems of ${PIECES} pieces: time of HiGHS over own time`;
  return [{ id: 'P4c', what, value, unit: 'times', goal: `>= ${RATIO_GOAL}`, ok: value >= RATIO_GOAL }];
}

/** Share of disturbed primaries for which no move as cheap as undoing the disturbance is found; the misses are named. */
export function measureMissedMoves(size: RunSize): readonly Measure[] {
  const runs = size === 'long' ? 600 : 90;
  const missed: string[] = [];
  let tried = 0;
  for (let seed = 1; seed <= runs; seed += 1) {
    const random = seededRandom(seed * 104_729);
    const primary = shopPrimary({ pieces: 8 + (seed % 7), random });
    const kinds = ['length', 'clocking', 'angle', 'clr'] as const;
    const { primary: off, undo, kinds: done } = disturb(primary, 1 + (seed % 3), { random, kinds });
    const header = fittedHeader(off, { targetMm: lengthOf(primary), fitted: primary });
    const outcome = suggestMoves(header, 'own', { stock: FULL_SHELF });
    if (outcome.kind === 'none' && outcome.reason.kind === 'nothingToDo') continue;
    tried += 1;
    const [move] = outcome.kind === 'found' ? outcome.moves : [];
    const tubeMm = (move?.cost.tubeAddedMm ?? 0) + 4 * Math.abs(move?.deviationMm ?? 0);
    const dearer =
      move === undefined
        ? 1
        : move.cost.jointsMade - undo.joints || move.cost.newCuts - undo.cuts || Math.max(0, tubeMm - undo.tubeMm - 1);
    if (dearer > 0) missed.push(`seed ${seed} (${done.join(', ')})`);
  }
  const value = missed.length / tried;
  const words = missed.length === 0 ? 'none missed' : `missed: ${missed.join('; ')}`;
  const what = `fitted primaries disturbed by 1 to 3 changes and not mended as cheaply, of ${tried}; ${words}`;
  return [
    { id: 'C4', what, value: 100 * value, unit: '%', goal: '<= 1 %', ok: value <= MISS_GOAL && tried > runs / 2 },
  ];
}
