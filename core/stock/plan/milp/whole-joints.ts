/** Joints that may stay whole: which of the header's there are, by the sizes that they join. */

import type { ArcColumn } from '../columns/arc-column.ts';
import type { Columns } from '../columns/columns.ts';
import type { CutJoint } from '../cut-problem.ts';

/** One joint, or both joints of a bend that is a whole arc. */
export interface WholeJoint {
  /** The sizes joined: the same for all that are alike. */
  readonly type: string;
  readonly joints: readonly CutJoint[];
}

/** Every joint, and every pair of joints of one bend, whose type some way of cutting has. */
export function headerJoints({ arcs, sizes, problem }: Columns): readonly WholeJoint[] {
  const used = new Set(arcs.flatMap(typeOfArc));
  const all: WholeJoint[] = [];
  const straightSize = ({ straightId }: CutJoint) => sizes.straights.findIndex(({ ids }) => ids.includes(straightId));
  sizes.bends.forEach(({ ids }, bend) => {
    for (const id of ids) {
      const joints = problem.joints.filter(({ bendId }) => bendId === id);
      joints.forEach((joint, at) => {
        all.push({ type: jointType(bend, [straightSize(joint)]), joints: [joint] });
        for (const other of joints.slice(at + 1)) {
          all.push({ type: jointType(bend, [straightSize(joint), straightSize(other)]), joints: [joint, other] });
        }
      });
    }
  });
  return all.filter(({ type }) => used.has(type));
}

/** The types of joint that a way of cutting an arc leaves whole. */
export function typeOfArc({ bends, joined: [first, other] }: Pick<ArcColumn, 'bends' | 'joined'>): readonly string[] {
  if (first !== null && other !== null && bends.length === 1) {
    return [jointType(first.bend, [first.straight, other.straight])];
  }
  return [first, other].flatMap((joined) => (joined === null ? [] : [jointType(joined.bend, [joined.straight])]));
}

function jointType(bend: number, straights: readonly number[]): string {
  return `${bend}:${straights.toSorted((a, b) => a - b).join(',')}`;
}
