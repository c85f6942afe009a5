/**
 * P4d and P4e on a thread of their own, as the program searches on one: a collection of garbage goes through the heap of its thread, and
 * that of the bench holds a browser's driver and a database as well.
 */

import { parentPort, workerData } from 'node:worker_threads';
import type { Header, Piece } from '../../core/header/header.ts';
import { MoveSearch } from '../../core/moves/suggest-moves.ts';
import type { StockItem } from '../../core/stock/stock-item.ts';
import { inches, millimetres } from '../../core/units/length.ts';
import { fittedHeader, lengthOf, shopPrimary } from '../core/moves/made-headers.ts';
import { bend, seededRandom, straight } from '../core/path/made-primaries.ts';
import { calibrate, threadCpuMs } from './calibration.ts';
import { type BudgetAnswer, type BudgetQuestion, MANY_CLRS } from './moves-budget.ts';

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

/** The compiler settles in on the first. */
const WARM_UP_RUNS = 3;

function worstOf({ runs, budgetMs }: BudgetQuestion): BudgetAnswer {
  const { factor, words } = calibrate(threadCpuMs);
  let overMs = 0;
  let pauseMs = 0;
  for (let run = 1; run <= runs + WARM_UP_RUNS; run += 1) {
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
    search.look(() => passed() > budgetMs);
    // Left at its budget it makes ready what it found, and listens meanwhile too.
    while (!search.windUp(() => true)) passed();
    search.soFar();
    passed();
    if (run <= WARM_UP_RUNS) continue;
    overMs = Math.max(overMs, threadCpuMs() - startMs - budgetMs);
    pauseMs = Math.max(pauseMs, longestMs);
  }
  return { overMs, pauseMs, factor, words };
}

parentPort?.postMessage(worstOf(workerData as BudgetQuestion));
