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

/** The better of two: the longest straights first, each where it fits tightest; or each stick filled as full as it can be. */
export function firstSticks(columns: Columns): readonly RunColumn[] {
  const tight = tightestSticks(columns);
  const full = fullestSticks(columns);
  const pieces = (all: readonly RunColumn[]) => all.reduce((sum, { straights }) => sum + straights.length, 0);
  const cost = (all: readonly RunColumn[]) => all.reduce((sum, { run }) => sum + costOfRow(columns, run), 0);
  const difference = pieces(full) - pieces(tight) || cost(tight) - cost(full);
  return difference > 0 ? full : tight;
}

function costOfRow({ problem }: Columns, row: number): number {
  const stock = problem.straightRows[row];
  return stock === undefined ? 0 : openingCost(stock);
}

/** Each stick takes the longest straight that is left, and with it those that fill it best (after minimum bin slack, Gupta and Ho, 1999). */
function fullestSticks(columns: Columns): readonly RunColumn[] {
  const { sizes, problem } = columns;
  const widthMm = cutWidthMm(problem.saw);
  const left = problem.straightRows.map(({ count }) => count);
  const wanted = sizes.straights.map(({ ids }) => ids.length);
  const sticks: RunColumn[] = [];
  const order = [...sizes.straights.keys()].sort((a, b) => takes(b) - takes(a));
  function takes(size: number): number {
    return (sizes.straights[size]?.lengthMm ?? 0) + widthMm;
  }
  for (const size of order) {
    while ((wanted[size] ?? 0) > 0) {
      const stick = openCheapest(columns, left, takes(size));
      if (stick === null) break;
      wanted[size] = (wanted[size] ?? 0) - 1;
      const items = order.map((one) => ({
        size: one,
        takesMm: takes(one),
        worth: takes(one),
        count: wanted[one] ?? 0,
      }));
      const roomMm = stick.leftMm - takes(size);
      const best = waysWorth(items, { roomMm, above: 0, limit: 'best' }).ways.at(-1)?.straights ?? [];
      for (const one of best) wanted[one] = (wanted[one] ?? 0) - 1;
      const run = { kind: 'stick', lengthMm: problem.straightRows[stick.row]?.lengthMm ?? 0 } as const;
      const straights = [size, ...best].sort((a, b) => a - b);
      sticks.push(runColumn(run, stick.row, { straights, sizes, problem }));
    }
  }
  return sticks;
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
