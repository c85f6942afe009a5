/** A plan for many pieces without a solver: twelve at a time, each batch exact over what the ones before have left. */

import { addGoals, type CutPlan, type CutStock, NO_GOALS, type PlanGoals } from '../cut-plan.ts';
import type { StockRow } from '../cut-problem.ts';
import { nameAndLayOut } from '../layout/name-pieces.ts';
import { remnantRow, withRemnantCut } from '../remnant-stock.ts';
import type { TubeProblem } from '../tube-problem.ts';
import { SMALL_PIECES, smallPlan } from './small-plan.ts';

/** A remnant of this plan, at hand for the batches after: which opened item it lies in, and where. */
interface Leftover {
  readonly row: StockRow;
  readonly item: number;
  readonly stretch: number;
}

/**
 * The largest pieces first, a straight and a bend that may stay joined in one batch where they can be. Good, and never wrong,
 * but not proven least: a batch does not know what comes after it. Remnants of one batch are stock of the next.
 */
export function planInBatches(problem: TubeProblem): CutPlan {
  const opened: CutStock[] = [];
  const short: string[] = [];
  let goals: PlanGoals = NO_GOALS;
  for (const ids of batchesOf(problem)) {
    const leftovers = leftoversOf(problem, opened);
    const batch = batchProblem(problem, { ids, opened, leftovers });
    const { columns, chosen } = smallPlan(batch);
    const laid = nameAndLayOut(columns, chosen);
    goals = addGoals(goals, chosen.goals);
    short.push(...laid.short);
    putIn(opened, leftovers, laid.opened);
  }
  const least = { shortage: 0, cost: 0, welds: -problem.straights.length, lost: 0 };
  const bounds = (['shortage', 'cost', 'welds', 'lost'] as const).map((goal) => ({
    goal,
    reached: goals[goal],
    bound: least[goal],
  }));
  return { opened, short, goals, bounds, ended: 'gaveUp' };
}

/** Ids in batches of twelve: bends with the straights beside them, the sharpest first, then the other straights, longest first. */
function batchesOf({ bends, straights, joints }: TubeProblem): readonly (readonly string[])[] {
  const order = new Set<string>();
  for (const { id } of bends.toSorted((a, b) => b.angleDeg - a.angleDeg)) {
    order.add(id);
    for (const { straightId } of joints.filter(({ bendId }) => bendId === id)) order.add(straightId);
  }
  for (const { id } of straights.toSorted((a, b) => b.lengthMm - a.lengthMm)) order.add(id);
  const ids = [...order];
  return Array.from({ length: Math.ceil(ids.length / SMALL_PIECES) }, (_, at) =>
    ids.slice(at * SMALL_PIECES, (at + 1) * SMALL_PIECES),
  );
}

function leftoversOf({ bendRows, straightRows }: TubeProblem, opened: readonly CutStock[]): readonly Leftover[] {
  return opened.flatMap((item, at) => {
    const row = [...bendRows, ...straightRows].find(({ id }) => id === item.rowId);
    if (row === undefined) return [];
    return item.stretches.flatMap((stretch, index) =>
      stretch.kind === 'remnant' ? [{ row: remnantRow(row, stretch, `${at} ${index}`), item: at, stretch: index }] : [],
    );
  });
}

interface Batch {
  readonly ids: readonly string[];
  readonly opened: readonly CutStock[];
  readonly leftovers: readonly Leftover[];
}

function batchProblem(problem: TubeProblem, { ids, opened, leftovers }: Batch): TubeProblem {
  const left = <Row extends StockRow>(rows: readonly Row[]) =>
    rows
      .map((row) => ({ ...row, count: row.count - opened.filter(({ rowId }) => rowId === row.id).length }))
      .filter(({ count }) => count > 0);
  const rows = leftovers.map(({ row }) => row);
  return {
    ...problem,
    bends: problem.bends.filter(({ id }) => ids.includes(id)),
    straights: problem.straights.filter(({ id }) => ids.includes(id)),
    joints: problem.joints.filter(({ straightId, bendId }) => ids.includes(straightId) && ids.includes(bendId)),
    bendRows: [...left(problem.bendRows), ...rows.filter((row) => row.kind === 'bend')],
    straightRows: [...left(problem.straightRows), ...rows.filter((row) => row.kind === 'straight')],
  };
}

/** New items are opened; remnants are cut up where they lie, the last of an item first, so that the places before stay right. */
function putIn(opened: CutStock[], leftovers: readonly Leftover[], cut: readonly CutStock[]): void {
  const used = leftovers
    .flatMap((leftover) => cut.filter(({ rowId }) => rowId === leftover.row.id).map((item) => ({ leftover, item })))
    .toSorted((a, b) => b.leftover.stretch - a.leftover.stretch);
  for (const { leftover, item } of used) {
    const place = opened[leftover.item];
    if (place !== undefined) opened[leftover.item] = withRemnantCut(place, leftover.stretch, item.stretches);
  }
  for (const item of cut) {
    if (leftovers.some(({ row }) => row.id === item.rowId)) continue;
    const copy = 1 + opened.filter(({ rowId }) => rowId === item.rowId).length;
    opened.push({ ...item, copy });
  }
}
