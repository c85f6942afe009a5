/**
 * The plan of a tube as a mixed-integer program: how often each way of cutting is used.
 *
 * Rows: every size of piece is supplied or short as often as it is wanted; no stock row is opened more often than it has
 * items; legs are cut no more often than arcs leave them; and every joint that stays whole is one of the header's, with no
 * piece in two of them but a bend that keeps both its straights. One row each for shortage, cost and welds holds what an
 * earlier goal has reached.
 */

import { legRunIndex, openingCost, weldsSaved } from '../chosen.ts';
import type { ArcColumn } from '../columns/arc-column.ts';
import type { Columns, RunColumn } from '../columns/columns.ts';
import { GOALS, type Goal, NO_GOALS } from '../cut-plan.ts';
import type { MilpColumn, MilpEntry, MilpRow } from './milp.ts';
import { headerJoints, typeOfArc, type WholeJoint } from './whole-joints.ts';

/** What a column of the program stands for. */
export type Meaning =
  | { readonly kind: 'arc'; readonly arc: ArcColumn }
  | { readonly kind: 'leg'; readonly column: RunColumn }
  | { readonly kind: 'stick'; readonly column: RunColumn }
  | { readonly kind: 'short' }
  | { readonly kind: 'joint'; readonly joint: WholeJoint };

export interface PlanModel {
  readonly columns: readonly MilpColumn[];
  readonly meanings: readonly Meaning[];
  readonly rows: readonly MilpRow[];
  /** What one of each column costs in each goal. */
  readonly costs: Readonly<Record<Goal, readonly number[]>>;
  /** Row that holds what a goal has reached. */
  readonly goalRow: Readonly<Record<Goal, number>>;
  readonly places: RowPlaces;
  /** Of the straight rows. */
  readonly openingCosts: readonly number[];
}

/** Where each kind of row begins. */
export interface RowPlaces {
  readonly bendSizes: number;
  readonly straightSizes: number;
  readonly bendRows: number;
  readonly straightRows: number;
  readonly legRuns: number;
  readonly jointTypes: ReadonlyMap<string, number>;
  readonly straightPieces: ReadonlyMap<string, number>;
  readonly bendPieces: ReadonlyMap<string, number>;
  readonly goals: number;
}

export function planModel(columns: Columns): PlanModel {
  const joints = headerJoints(columns);
  const places = rowPlaces(columns, joints);
  const indexOfLeg = legRunIndex(columns);
  const meanings: readonly Meaning[] = [
    ...columns.arcs.map((arc) => ({ kind: 'arc', arc }) as const),
    ...columns.legs.map((column) => ({ kind: 'leg', column }) as const),
    ...Array.from(
      { length: columns.sizes.bends.length + columns.sizes.straights.length },
      () => ({ kind: 'short' }) as const,
    ),
    ...joints.map((joint) => ({ kind: 'joint', joint }) as const),
    ...columns.sticks.map((column) => ({ kind: 'stick', column }) as const),
  ];
  const cost = costOf(columns);
  const goalsOf = meanings.map((meaning) => cost(meaning));
  const costs = (goal: Goal) => goalsOf.map((goals) => goals[goal]);
  return {
    columns: milpColumns(meanings, goalsOf, { places, indexOfLeg }),
    meanings,
    rows: rowsOf(columns, places),
    costs: { shortage: costs('shortage'), cost: costs('cost'), welds: costs('welds'), lost: costs('lost') },
    goalRow: { shortage: places.goals, cost: places.goals + 1, welds: places.goals + 2, lost: places.goals + 3 },
    places,
    openingCosts: columns.problem.straightRows.map(openingCost),
  };
}

function milpColumns(
  meanings: readonly Meaning[],
  goalsOf: readonly Readonly<Record<Goal, number>>[],
  placing: Omit<Placing, 'short'>,
): readonly MilpColumn[] {
  let short = 0;
  return meanings.map((meaning, at): MilpColumn => {
    const entries = entriesOf(meaning, { ...placing, short });
    if (meaning.kind === 'short') short += 1;
    const goals = goalsOf[at];
    const held = GOALS.flatMap((goal, index): readonly MilpEntry[] =>
      goals === undefined || goals[goal] === 0 ? [] : [[placing.places.goals + index, goals[goal]]],
    );
    return { high: Number.POSITIVE_INFINITY, entries: [...entries, ...held] };
  });
}

function rowPlaces({ sizes, problem, legRuns }: Columns, joints: readonly WholeJoint[]): RowPlaces {
  let next = 0;
  const block = (length: number) => {
    next += length;
    return next - length;
  };
  const named = (names: readonly string[]) => new Map([...new Set(names)].map((name) => [name, block(1)]));
  return {
    bendSizes: block(sizes.bends.length),
    straightSizes: block(sizes.straights.length),
    bendRows: block(problem.bendRows.length),
    straightRows: block(problem.straightRows.length),
    legRuns: block(legRuns.length),
    jointTypes: named(joints.map(({ type }) => type)),
    straightPieces: named(joints.flatMap((joint) => joint.joints.map(({ straightId }) => straightId))),
    bendPieces: named(joints.flatMap((joint) => joint.joints.map(({ bendId }) => bendId))),
    goals: block(GOALS.length),
  };
}

function rowsOf({ sizes, problem, legRuns }: Columns, places: RowPlaces): readonly MilpRow[] {
  const exactly = (value: number): MilpRow => ({ low: value, high: value });
  const atMost = (value: number): MilpRow => ({ low: Number.NEGATIVE_INFINITY, high: value });
  return [
    ...sizes.bends.map(({ ids }) => exactly(ids.length)),
    ...sizes.straights.map(({ ids }) => exactly(ids.length)),
    ...problem.bendRows.map(({ count }) => atMost(count)),
    ...problem.straightRows.map(({ count }) => atMost(count)),
    ...legRuns.map(() => atMost(0)),
    ...[...places.jointTypes].map(() => exactly(0)),
    ...[...places.straightPieces, ...places.bendPieces].map(() => atMost(1)),
    ...GOALS.map(() => atMost(Number.POSITIVE_INFINITY)),
  ];
}

function costOf({ problem }: Columns): (meaning: Meaning) => Readonly<Record<Goal, number>> {
  const none = NO_GOALS;
  const opening = (rows: readonly { readonly isRemnant: boolean; readonly cost: number }[], index: number) => {
    const row = rows[index];
    return row === undefined ? 0 : openingCost(row);
  };
  return (meaning) => {
    if (meaning.kind === 'short') return { ...none, shortage: 1 };
    if (meaning.kind === 'joint') return none;
    if (meaning.kind === 'leg') return { ...none, lost: meaning.column.lost };
    if (meaning.kind === 'stick')
      return { ...none, cost: opening(problem.straightRows, meaning.column.run), lost: meaning.column.lost };
    const { arc } = meaning;
    return { ...none, cost: opening(problem.bendRows, arc.row), welds: 0 - weldsSaved(arc), lost: arc.lost };
  };
}

interface Placing {
  readonly places: RowPlaces;
  readonly indexOfLeg: ReturnType<typeof legRunIndex>;
  /** Which of the sizes, bends first, a column of shortage is of. */
  readonly short: number;
}

function entriesOf(meaning: Meaning, { places, indexOfLeg, short }: Placing): readonly MilpEntry[] {
  switch (meaning.kind) {
    case 'short':
      // Sizes of bends and of straights follow each other.
      return [[places.bendSizes + short, 1]];
    case 'leg':
      return [...counted(meaning.column.straights, places.straightSizes), [places.legRuns + meaning.column.run, 1]];
    case 'stick':
      return [
        ...counted(meaning.column.straights, places.straightSizes),
        [places.straightRows + meaning.column.run, 1],
      ];
    case 'joint':
      return jointEntries(meaning.joint, places);
    case 'arc': {
      const { arc } = meaning;
      const kept = arc.joined.flatMap((joined) => (joined === null ? [] : [joined.straight]));
      const types = typeOfArc(arc).map((type) => rowNamed(places.jointTypes, type));
      return [
        ...counted(arc.bends, places.bendSizes),
        ...counted(kept, places.straightSizes),
        [places.bendRows + arc.row, 1],
        ...counted(arc.legs.map(indexOfLeg), places.legRuns, -1),
        ...counted(types, 0),
      ];
    }
  }
}

function jointEntries({ type, joints }: WholeJoint, places: RowPlaces): readonly MilpEntry[] {
  const bendId = joints[0]?.bendId ?? '';
  return [
    [rowNamed(places.jointTypes, type), -1],
    ...joints.map(({ straightId }): MilpEntry => [rowNamed(places.straightPieces, straightId), 1]),
    [rowNamed(places.bendPieces, bendId), 1],
  ];
}

/** A solver handed a row that is not there would only say that it failed. */
function rowNamed(rows: ReadonlyMap<string, number>, name: string): number {
  const row = rows.get(name);
  if (row === undefined) throw new Error(`the program has no row for ${name}`);
  return row;
}

/** One entry for each index that is there, with how often it is. */
function counted(indexes: readonly number[], from: number, each = 1): readonly MilpEntry[] {
  const counts = new Map<number, number>();
  for (const index of indexes) counts.set(index, (counts.get(index) ?? 0) + each);
  return [...counts].map(([index, count]) => [from + index, count]);
}
