/** All ways to cut each stock item of a tube: what a plan is put together from. */

import type { TubeProblem } from '../tube-problem.ts';
import { type ArcColumn, arcColumns } from './arc-column.ts';
import { type Run, runLost, waysToFill } from './run.ts';
import { type Sizes, sizesOf } from './sizes.ts';

/** Straights cut from one run. */
export interface RunColumn {
  /** Index of the run: among `legRuns` for a leg, among the tube's straight rows for straight stock. */
  readonly run: number;
  /** Sizes of the straights, one entry a straight. */
  readonly straights: readonly number[];
  /** Tube lost, hundredths of a millimetre; of a leg how much more than when nothing is cut from it. */
  readonly lost: number;
}

export interface Columns {
  readonly problem: TubeProblem;
  readonly sizes: Sizes;
  readonly arcs: readonly ArcColumn[];
  /** Legs of all stock bends by what can be cut from them; legs that are alike are one entry. */
  readonly legRuns: readonly Run[];
  readonly legs: readonly RunColumn[];
  readonly sticks: readonly RunColumn[];
  /** Whether every way is there. Straight stock may have more ways than can be listed; they are then found as they are needed. */
  readonly isComplete: boolean;
}

/** Each of the three lists holds at most so many ways. */
interface ColumnOptions {
  /** Whether every piece is a size of its own; see `sizesOf`. */
  readonly isApart: boolean;
  readonly limit: number;
  /** Whether ways of cutting straight stock are listed; there may be very many. */
  readonly listsSticks: boolean;
}

export function columnsOf(problem: TubeProblem, { isApart, limit, listsSticks }: ColumnOptions): Columns {
  const { bendRows, straightRows, saw } = problem;
  const sizes = sizesOf(problem, isApart);
  const listed = (eachRow: number) =>
    bendRows.map((row, index) => arcColumns(row, index, { sizes, saw, limit: eachRow }));
  const whole = listed(limit);
  const areAllListed = whole.reduce((sum, { length }) => sum + length, 0) < limit;
  // Where there are too many, every row has its share of them.
  const arcs = (areAllListed ? whole : listed(Math.ceil(limit / Math.max(1, bendRows.length)))).flat();
  const legRuns = distinctRuns(arcs.flatMap((arc) => arc.legs));
  const filled = (runs: readonly Run[]) => {
    const each = Math.ceil(limit / Math.max(1, runs.length));
    return runs.map((run) => ({ run, ...waysToFill(run, sizes.straights, { saw, limit: each }) }));
  };
  const legs = filled(legRuns);
  const sticks = filled(listsSticks ? straightRows.map(({ lengthMm }) => ({ kind: 'stick', lengthMm })) : []);
  const asColumns = (all: ReturnType<typeof filled>) =>
    all.flatMap(({ run, ways }, index) =>
      ways.map((straights) => runColumn(run, index, { straights, sizes, problem })),
    );
  return {
    problem,
    sizes,
    arcs,
    legRuns,
    legs: asColumns(legs),
    sticks: asColumns(sticks),
    isComplete: areAllListed && [...legs, ...sticks].every((one) => one.isComplete),
  };
}

/** A way to cut straights from a run. */
export function runColumn(
  run: Run,
  index: number,
  { straights, sizes, problem }: Pick<RunColumn, 'straights'> & Pick<Columns, 'sizes' | 'problem'>,
): RunColumn {
  const lengthsMm = straights.map((size) => sizes.straights[size]?.lengthMm ?? 0);
  const untouched = run.kind === 'stick' ? 0 : runLost(run, [], problem.saw);
  return { run: index, straights, lost: runLost(run, lengthsMm, problem.saw) - untouched };
}

/** Lengths that differ by rounding alone are one. */
export function runKey({ kind, lengthMm }: Run): string {
  return `${kind} ${lengthMm.toFixed(7)}`;
}

function distinctRuns(runs: readonly Run[]): readonly Run[] {
  return [...new Map(runs.map((run) => [runKey(run), run])).values()];
}
