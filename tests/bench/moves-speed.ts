/** How fast moves are found, how much faster than a mixed-integer solver, and how many known ones are missed. */

import { createRequire } from 'node:module';
import { performance } from 'node:perf_hooks';
import type { Header, Piece } from '../../core/header/header.ts';
import type { MoveOptions } from '../../core/moves/question.ts';
import { MoveSearch, suggestMoves } from '../../core/moves/suggest-moves.ts';
import type { StockItem } from '../../core/stock/stock-item.ts';
import { inches, millimetres } from '../../core/units/length.ts';
import { disturb, FULL_SHELF } from '../core/moves/disturb.ts';
import { exactMoves } from '../core/moves/exact-moves.ts';
import { fittedHeader, lengthOf, shopPrimary } from '../core/moves/made-headers.ts';
import { bend, seededRandom, straight } from '../core/path/made-primaries.ts';
import { type Measure, quantile, type RunSize } from '../measure.ts';
import { straightsModel } from '../references/straights-model.ts';
import { calibrate, threadCpuMs } from './calibration.ts';

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

function within(goalMs: number, measured: Pick<Measure, 'id' | 'what'> & { readonly value: number }): Measure {
  return { ...measured, unit: 'ms', goal: `< ${goalMs.toFixed(1)}`, ok: measured.value < goalMs };
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

const BUDGET_MS = 300;
const OVER_GOAL_MS = 50;
const PAUSE_GOAL_MS = 20;
const MANY_CLRS = 40;

/** Bends of many CLRs, each to 180 degrees. */
const WIDE_SHELF: readonly StockItem[] = Array.from({ length: MANY_CLRS }, (_, index) => ({
  kind: 'bend',
  id: `shelf-${index}`,
  material: '304 stainless',
  od: inches(1.75),
  wall: inches(0.065),
  count: 4,
  note: '',
  clr: millimetres(45 + 2.5 * index),
  angleDeg: 180,
  legs: [millimetres(0), millimetres(0)],
}));

/** 24 planned pieces, of the kinds that leave most to look through: as a shop has them, straights in line and a bend, all bends of 180. */
function worstKind(seed: number): Header {
  const random = seededRandom(seed * 611_953);
  const shop = shopPrimary({ pieces: 24, random, states: ['planned'] });
  const shapes = [
    shop.pieces,
    Array.from({ length: 24 }, (_, index) =>
      index === 11 ? bend(76, 90, 0) : straight(20 + Math.floor(random() * 60)),
    ),
    Array.from({ length: 24 }, (_, index) =>
      index % 2 === 0 ? straight(20 + Math.floor(random() * 60)) : bend(60, 180, Math.floor(random() * 360) - 180),
    ),
  ] as const;
  const pieces = (shapes[seed % shapes.length] ?? shop.pieces).map(
    (piece, index): Piece => ({ ...piece, id: `p${index}`, state: 'planned' }),
  );
  const primary = { ...shop, pieces };
  return fittedHeader(primary, { targetMm: lengthOf(primary) + 5 + random() * 25 });
}

/** The worst of many questions: by how much its answer came later than its budget, and how long it looked on before it asked whether to stop. */
export function measureBudget(size: RunSize): readonly Measure[] {
  const runs = size === 'long' ? 1000 : 12;
  const { factor, words } = calibrate(threadCpuMs);
  let overMs = 0;
  let pauseMs = 0;
  for (let run = 1; run <= runs + 3; run += 1) {
    const header = worstKind(run);
    const startMs = threadCpuMs();
    let lastMs = startMs;
    let longestMs = 0;
    const search = new MoveSearch(header, 'own', { stock: WIDE_SHELF });
    const passed = () => {
      const nowMs = threadCpuMs();
      longestMs = Math.max(longestMs, nowMs - lastMs);
      lastMs = nowMs;
      return nowMs - startMs;
    };
    search.look(() => passed() > BUDGET_MS);
    // Left at its budget it makes ready what it found, and listens meanwhile too.
    while (!search.windUp(() => true)) passed();
    search.soFar();
    passed();
    // The compiler settles in on the first.
    if (run <= 3) continue;
    overMs = Math.max(overMs, threadCpuMs() - startMs - BUDGET_MS);
    pauseMs = Math.max(pauseMs, longestMs);
  }
  const what = `${runs} questions of 24 planned pieces and ${MANY_CLRS} CLRs (${words})`;
  return [
    within(OVER_GOAL_MS * factor, {
      id: 'P4d',
      what: `worst answer after a budget of ${BUDGET_MS} ms, ${what}`,
      value: overMs,
    }),
    within(PAUSE_GOAL_MS * factor, { id: 'P4e', what: `longest until a stop is heard, ${what}`, value: pauseMs }),
  ];
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
