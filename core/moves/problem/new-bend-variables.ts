/** What may change about a bend that is let in: its plane and its angle, with no bend there to begin with. */

import { binormalOf, type Frame } from '../../path/frame.ts';
import { addScaled } from '../../path/vector.ts';
import { radiansOf } from '../../units/angle.ts';
import { mmOf } from '../../units/length.ts';
import { NO_VECTOR } from '../turning/end-motion.ts';
import type { MoveProblem } from './move-problem.ts';
import type { NewBend } from './new-bends.ts';
import { eitherWay, inOneShape, type Variable } from './variable.ts';

/** Less than this is no bend that anyone would weld in. */
const LEAST_BEND_RAD = radiansOf(4);

/** Places in the order of screws: behind whatever is changed about the piece before, ahead of a straight let in at the same joint. */
const BEFORE_ANGLE = 0.6;
const BEFORE_STRAIGHT = 0.4;

/** Below those of all that is there, and of pairs of bends. */
const FIRST_SLOT = -1_000_000;

interface Place {
  readonly joint: number;
  /** There, on the present path. */
  readonly frame: Frame;
}

/**
 * Clocking and angle of a bend let in ahead of piece `joint`, both counted from none: turned by both, the rest of the tube lies as
 * it does behind such a bend, with the clocking of the bend after it left at the figure that it has.
 */
export function newBendVariables(
  problem: MoveProblem,
  place: Place,
  bend: NewBend,
): readonly [clocking: Variable, angle: Variable] {
  const { joint, frame } = place;
  const still = { slide: NO_VECTOR, shift: NO_VECTOR, lengthPer: 0, lengthShiftMm: 0 };
  const common = {
    pieceIndex: joint,
    present: 0,
    start: 0,
    isFixed: false,
    isHeld: problem.jointStates[joint] === 'welded',
    adjusted: 0,
    clr: bend.clr,
  } as const;
  const clocking: Variable = {
    ...common,
    kind: 'newClocking',
    screw: { axis: frame.tangent, through: frame.point, order: 3 * joint - BEFORE_ANGLE, ...still },
    low: Number.NEGATIVE_INFINITY,
    high: Number.POSITIVE_INFINITY,
    ...eitherWay({ kind: 'joint', joint, more: 0 }),
    slot: FIRST_SLOT - 2 * joint,
    cuts: 0,
  };
  const angle: Variable = {
    ...common,
    kind: 'newAngle',
    screw: { ...still, ...angleScrew(problem, place, bend) },
    low: LEAST_BEND_RAD,
    high: radiansOf(bend.largestDeg),
    ...eitherWay({ kind: 'joint', joint, more: 1 }),
    slot: FIRST_SLOT - 2 * joint - 1,
    cuts: 1,
    bends: 1,
  };
  return [inOneShape(clocking), inOneShape(angle)];
}

function angleScrew({ shrinkageMm }: MoveProblem, { joint, frame }: Place, { clr }: NewBend) {
  const clrMm = mmOf(clr);
  const through = addScaled(frame.point, frame.normal, clrMm);
  return {
    axis: binormalOf(frame),
    through,
    lengthPer: clrMm,
    lengthShiftMm: -shrinkageMm,
    order: 3 * joint - BEFORE_STRAIGHT,
  };
}
