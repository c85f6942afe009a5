/** What a search hands back: the ways of cutting that it chose, before the pieces are named. */

import type { ArcColumn } from './columns/arc-column.ts';
import type { Columns } from './columns/columns.ts';
import { runKey } from './columns/columns.ts';
import type { PlanGoals } from './cut-plan.ts';
import { hundredths } from './cut-plan.ts';
import type { CutJoint } from './cut-problem.ts';

/** One stock item and how it is cut. Sizes are indexes into the columns' sizes; a leg's straights go from its free end inwards. */
export type ChosenUnit =
  | {
      readonly kind: 'bend';
      readonly arc: ArcColumn;
      readonly legs: readonly [readonly number[], readonly number[]];
      /** Which joints stay whole at the two ends. */
      readonly joints: readonly [CutJoint | null, CutJoint | null];
    }
  | { readonly kind: 'stick'; readonly row: number; readonly straights: readonly number[] };

export interface Chosen {
  readonly units: readonly ChosenUnit[];
  readonly goals: PlanGoals;
}

/** Cost of opening one item of a bend row or a straight row, in hundredths; a remnant is paid for already. */
export function openingCost({ isRemnant, cost }: { readonly isRemnant: boolean; readonly cost: number }): number {
  return isRemnant ? 0 : hundredths(cost);
}

export function weldsSaved({ joined }: Pick<ArcColumn, 'joined'>): number {
  return joined.filter((one) => one !== null).length;
}

/** For each leg of each way of cutting an arc, its place among the leg runs. */
export function legRunIndex({ legRuns }: Pick<Columns, 'legRuns'>): (run: Columns['legRuns'][number]) => number {
  const places = new Map(legRuns.map((run, index) => [runKey(run), index]));
  return (run) => {
    const place = places.get(runKey(run));
    if (place === undefined) throw new Error(`no leg is of ${runKey(run)}`);
    return place;
  };
}
