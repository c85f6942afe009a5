/** The best plan for a few pieces, by looking at every set of them: exact in all goals, without any solver. */

import { type Chosen, type ChosenUnit, legRunIndex, openingCost, weldsSaved } from '../chosen.ts';
import type { ArcColumn } from '../columns/arc-column.ts';
import { type Columns, columnsOf } from '../columns/columns.ts';
import type { TubeProblem } from '../tube-problem.ts';

/** Sets of pieces grow as powers of two: this many are looked at within a second or two. */
export const SMALL_PIECES = 12;

/** Ways of one tube and stock row that are listed for so few pieces; 12 pieces have 4095 sets. */
const LIMIT = 1e6;

/** Welds and lost tube in one number that sorts as they do; tube lost stays far below this. */
const WELD = 2 ** 40;

/** One way to cut an item of a row: the pieces it supplies as bits, and its price. */
interface Option {
  readonly mask: number;
  readonly cost: number;
  /** Welds, then tube lost. */
  readonly rest: number;
  readonly unit: ChosenUnit;
}

/** Cheapest ways to supply each set of pieces; `before` leads back through the items opened. */
interface Table {
  readonly cost: Float64Array;
  readonly rest: Float64Array;
  readonly last: (Step | null)[];
}

interface Step {
  readonly option: Option;
  readonly before: Step | null;
}

/**
 * Least in all goals, in their order. Stock items are taken in turn, and for every set of pieces the best way to supply it
 * from those so far is kept (dynamic programming over subsets); sums of whole numbers lose nothing.
 *
 * Cost: items times 3 to the number of pieces, so at most `SMALL_PIECES`; more is refused as a fault of the caller.
 */
export function smallPlan(problem: TubeProblem): { readonly columns: Columns; readonly chosen: Chosen } {
  const pieces = problem.bends.length + problem.straights.length;
  if (pieces > SMALL_PIECES) throw new Error(`${pieces} pieces are too many to look at every set of them`);
  const columns = columnsOf(problem, { isApart: true, limit: LIMIT, listsSticks: true });
  const size = 2 ** pieces;
  const table: Table = {
    cost: new Float64Array(size).fill(Number.POSITIVE_INFINITY),
    rest: new Float64Array(size),
    last: new Array(size).fill(null),
  };
  table.cost[0] = 0;
  for (const { options, count } of optionsByRow(columns)) {
    for (let copy = 0; copy < Math.min(count, pieces); copy += 1) if (!openOne(table, options)) break;
  }
  return { columns, chosen: bestOf(table, pieces) };
}

/** Lets one more item of a row be opened. Returns whether that helped anywhere. */
function openOne({ cost, rest, last }: Table, options: readonly Option[]): boolean {
  let hasHelped = false;
  // From the largest set down, so that a set is read before this item has gone into it.
  for (let set = cost.length - 1; set > 0; set -= 1) {
    for (const option of options) {
      if ((option.mask & set) !== option.mask) continue;
      const before = set ^ option.mask;
      const newCost = (cost[before] ?? 0) + option.cost;
      const difference = newCost - (cost[set] ?? 0);
      if (!(difference <= 0)) continue;
      const newRest = (rest[before] ?? 0) + option.rest;
      if (difference === 0 && newRest >= (rest[set] ?? 0)) continue;
      cost[set] = newCost;
      rest[set] = newRest;
      last[set] = { option, before: last[before] ?? null };
      hasHelped = true;
    }
  }
  return hasHelped;
}

function bestOf({ cost, rest, last }: Table, pieces: number): Chosen {
  let best = 0;
  const supplied = (set: number) => set.toString(2).replaceAll('0', '').length;
  for (let set = 1; set < cost.length; set += 1) {
    if (cost[set] === Number.POSITIVE_INFINITY) continue;
    const difference =
      supplied(best) - supplied(set) || (cost[set] ?? 0) - (cost[best] ?? 0) || (rest[set] ?? 0) - (rest[best] ?? 0);
    if (difference < 0) best = set;
  }
  const units: ChosenUnit[] = [];
  for (let step = last[best] ?? null; step !== null; step = step.before) units.push(step.option.unit);
  const restOfBest = rest[best] ?? 0;
  const welds = Math.floor(restOfBest / WELD);
  const goals = { shortage: pieces - supplied(best), cost: cost[best] ?? 0, welds, lost: restOfBest - welds * WELD };
  return { units, goals };
}

/** The best way of one item for each set of pieces that it can supply, row by row. */
function optionsByRow(columns: Columns): readonly { readonly options: readonly Option[]; readonly count: number }[] {
  const { bendRows, straightRows } = columns.problem;
  const sticks = straightRows.map((row, index) => ({
    count: row.count,
    options: columns.sticks
      .filter(({ run }) => run === index)
      .map(({ straights, lost }) => ({
        mask: bitsOf(straights, columns.sizes.bends.length),
        cost: openingCost(row),
        rest: lost,
        unit: { kind: 'stick', row: index, straights } as const,
      })),
  }));
  const legs = legOptions(columns);
  const bends = bendRows.map((row, index) => ({
    count: row.count,
    options: columns.arcs.filter((arc) => arc.row === index).flatMap((arc) => arcOptions(columns, arc, legs)),
  }));
  return [...bends, ...sticks].map(({ count, options }) => ({ count, options: bestBySet(options) }));
}

interface LegOption {
  readonly mask: number;
  readonly lost: number;
  readonly straights: readonly number[];
}

function legOptions({ legRuns, legs, sizes }: Columns): readonly (readonly LegOption[])[] {
  return legRuns.map((_, index) => [
    { mask: 0, lost: 0, straights: [] },
    ...legs
      .filter(({ run }) => run === index)
      .map(({ straights, lost }) => ({ mask: bitsOf(straights, sizes.bends.length), lost, straights })),
  ]);
}

function arcOptions(columns: Columns, arc: ArcColumn, legs: readonly (readonly LegOption[])[]): readonly Option[] {
  const { sizes, problem } = columns;
  const indexOf = legRunIndex(columns);
  const row = problem.bendRows[arc.row];
  const joints = arc.joined.map((joined) => {
    const straightId = sizes.straights[joined?.straight ?? -1]?.ids[0];
    const bendId = sizes.bends[joined?.bend ?? -1]?.ids[0];
    return straightId === undefined || bendId === undefined ? null : { straightId, bendId };
  });
  const joinedStraights = arc.joined.flatMap((joined) => (joined === null ? [] : [joined.straight]));
  const own = bitsOf(arc.bends, 0) | bitsOf(joinedStraights, sizes.bends.length);
  const options: Option[] = [];
  for (const first of legs[indexOf(arc.legs[0])] ?? []) {
    if ((first.mask & own) !== 0) continue;
    for (const other of legs[indexOf(arc.legs[1])] ?? []) {
      if ((other.mask & (own | first.mask)) !== 0) continue;
      const mask = own | first.mask | other.mask;
      if (mask === 0) continue;
      options.push({
        mask,
        cost: row === undefined ? 0 : openingCost(row),
        rest: arc.lost + first.lost + other.lost - weldsSaved(arc) * WELD,
        unit: {
          kind: 'bend',
          arc,
          legs: [first.straights, other.straights],
          joints: [joints[0] ?? null, joints[1] ?? null],
        },
      });
    }
  }
  return options;
}

function bitsOf(indexes: readonly number[], from: number): number {
  return indexes.reduce((mask, index) => mask | (1 << (from + index)), 0);
}

function bestBySet(options: readonly Option[]): readonly Option[] {
  const best = new Map<number, Option>();
  for (const option of options) {
    const known = best.get(option.mask);
    if (known === undefined || option.rest < known.rest) best.set(option.mask, option);
  }
  return [...best.values()];
}
