/** A first way to cut the straights from straight stock, to begin a search with. */

import { openingCost } from '../chosen.ts';
import { type Columns, type RunColumn, runColumn } from '../columns/columns.ts';
import { runRoomMm } from '../columns/run.ts';
import { cutWidthMm, FIT } from '../cut-problem.ts';
import { waysWorth } from './worth-cutting.ts';

interface OpenStick {
  readonly row: number;
  readonly straights: number[];
  leftMm: number;
}

/** Straights from which on more than one way to begin is tried. */
const MANY_STRAIGHTS = 40;
const TRIES = 40;

/** The longest straights first, each where it fits tightest; where there are many, also sticks filled one by one by value. */
export function firstSticks(columns: Columns): readonly RunColumn[] {
  let best = tightestSticks(columns);
  if (columns.problem.straights.length < MANY_STRAIGHTS) return best;
  const pieces = (all: readonly RunColumn[]) => all.reduce((sum, { straights }) => sum + straights.length, 0);
  const cost = (all: readonly RunColumn[]) => all.reduce((sum, { run }) => sum + costOfRow(columns, run), 0);
  const worths = columns.sizes.straights.map(({ lengthMm }) => lengthMm + cutWidthMm(columns.problem.saw));
  for (let tried = 0; tried < TRIES; tried += 1) {
    const sticks = sticksByWorth(columns, worths, tried);
    if ((pieces(sticks) - pieces(best) || cost(best) - cost(sticks)) > 0) best = sticks;
  }
  return best;
}

function costOfRow({ problem }: Columns, row: number): number {
  const stock = problem.straightRows[row];
  return stock === undefined ? 0 : openingCost(stock);
}

/**
 * Each stick is filled with what is worth most together. A straight that came to lie in a stick with much left over is worth
 * more from then on, so that the next try places it sooner (sequential value correction: Mukhacheva et al., 2000; Belov and
 * Scheithauer, Computers & OR 34, 2007). `worths` are changed.
 */
function sticksByWorth(columns: Columns, worths: number[], tried: number): readonly RunColumn[] {
  const { sizes, problem } = columns;
  const left = problem.straightRows.map(({ count }) => count);
  const wanted = sizes.straights.map(({ ids }) => ids.length);
  const takes = sizes.straights.map(({ lengthMm }) => lengthMm + cutWidthMm(problem.saw));
  const sticks: RunColumn[] = [];
  for (;;) {
    const longestMm = Math.max(0, ...takes.filter((_, size) => (wanted[size] ?? 0) > 0));
    const stick = longestMm === 0 ? null : openCheapest(columns, left, longestMm);
    if (stick === null) return sticks;
    const items = takes.map((takesMm, size) => ({
      size,
      takesMm,
      worth: worths[size] ?? 0,
      count: wanted[size] ?? 0,
    }));
    const straights = waysWorth(items, { roomMm: stick.leftMm, above: 0, limit: 'best' }).ways.at(-1)?.straights ?? [];
    if (straights.length === 0) return sticks;
    const filledMm = straights.reduce((sum, size) => sum + (takes[size] ?? 0), 0);
    // How much of the old worth stays is varied from try to try, so that they do not come round to the same.
    const keeps = 1 + (tried % 7) / 2;
    for (const size of straights) {
      wanted[size] = (wanted[size] ?? 0) - 1;
      const now = (takes[size] ?? 0) ** (1 + (tried % 5) / 100) * (stick.leftMm / filledMm);
      worths[size] = (keeps * (worths[size] ?? 0) + now) / (keeps + 1);
    }
    const run = { kind: 'stick', lengthMm: problem.straightRows[stick.row]?.lengthMm ?? 0 } as const;
    sticks.push(runColumn(run, stick.row, { straights: straights.toSorted((a, b) => a - b), sizes, problem }));
  }
}

function tightestSticks(columns: Columns): readonly RunColumn[] {
  const { sizes, problem } = columns;
  const widthMm = cutWidthMm(problem.saw);
  const left = problem.straightRows.map(({ count }) => count);
  const open: OpenStick[] = [];
  const pieces = sizes.straights
    .flatMap(({ lengthMm, ids }, size) => ids.map(() => ({ lengthMm, size })))
    .sort((a, b) => b.lengthMm - a.lengthMm);
  for (const { lengthMm, size } of pieces) {
    const takesMm = lengthMm + widthMm;
    const tightest = open.filter(({ leftMm }) => takesMm <= leftMm + FIT).sort((a, b) => a.leftMm - b.leftMm)[0];
    const stick = tightest ?? openCheapest(columns, left, takesMm);
    if (stick === null) continue;
    if (tightest === undefined) open.push(stick);
    stick.straights.push(size);
    stick.leftMm -= takesMm;
  }
  return open.map(({ row, straights }) => {
    const run = { kind: 'stick', lengthMm: problem.straightRows[row]?.lengthMm ?? 0 } as const;
    return runColumn(run, row, { straights: straights.sort((a, b) => a - b), sizes, problem });
  });
}

/** One more of the row that costs least for its length, of those that are long enough. */
function openCheapest({ problem }: Columns, left: number[], takesMm: number): OpenStick | null {
  const rows = problem.straightRows.map((row, index) => ({
    index,
    roomMm: runRoomMm({ kind: 'stick', lengthMm: row.lengthMm }, problem.saw),
    price: openingCost(row) / row.lengthMm,
  }));
  const [cheapest] = rows
    .filter(({ index, roomMm }) => (left[index] ?? 0) > 0 && takesMm <= roomMm + FIT)
    .sort((a, b) => a.price - b.price || b.roomMm - a.roomMm);
  if (cheapest === undefined) return null;
  left[cheapest.index] = (left[cheapest.index] ?? 0) - 1;
  return { row: cheapest.index, straights: [], leftMm: cheapest.roomMm };
}
