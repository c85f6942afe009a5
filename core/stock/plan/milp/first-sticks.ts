/** A first way to cut the straights from straight stock, to begin a search with: the longest first, each where it fits tightest. */

import { openingCost } from '../chosen.ts';
import { type Columns, type RunColumn, runColumn } from '../columns/columns.ts';
import { runRoomMm } from '../columns/run.ts';
import { cutWidthMm, FIT } from '../cut-problem.ts';

interface OpenStick {
  readonly row: number;
  readonly straights: number[];
  leftMm: number;
}

export function firstSticks(columns: Columns): readonly RunColumn[] {
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
