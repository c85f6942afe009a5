/** What may change about bends: re-clocked, cut to another angle, or replaced by one of another CLR. */

import type { Bend, PieCutBend } from '../../header/header.ts';
import { binormalOf, clockBy, type Frame } from '../../path/frame.ts';
import { addScaled, scale, subtract, type Vector } from '../../path/vector.ts';
import { clrsOnShelf, largestAngleDeg, SAME_SIZE_MM } from '../../stock/shelf-match.ts';
import { radiansOf } from '../../units/angle.ts';
import { type Length, mmOf } from '../../units/length.ts';
import { NO_VECTOR, type Screw } from '../turning/end-motion.ts';
import type { JointDemand } from './joints.ts';
import type { MoveProblem } from './move-problem.ts';
import { eitherWay, lessOrMore, type Variable } from './variable.ts';

/** No bend is cut down to less than this. */
const LEAST_BEND_RAD = radiansOf(2);

interface BendAt<Shape extends Bend | PieCutBend> {
  readonly piece: Shape;
  readonly index: number;
  readonly joint: Frame;
}

export function clocking(
  problem: MoveProblem,
  { piece, index, joint }: BendAt<Bend | PieCutBend>,
  firstJoint: number,
): Variable {
  const present = radiansOf(piece.clockingDeg ?? 0);
  const through = joint.point;
  const still = { slide: NO_VECTOR, shift: NO_VECTOR, lengthPer: 0, lengthShiftMm: 0 };
  const demand: JointDemand = { kind: 'oneOf', first: firstJoint, last: index };
  return {
    kind: 'clocking',
    pieceIndex: index,
    screw: { axis: joint.tangent, through, order: 3 * index + 1, ...still },
    present,
    low: Number.NEGATIVE_INFINITY,
    high: Number.POSITIVE_INFINITY,
    start: present,
    isFixed: false,
    ...eitherWay(demand),
    // A welded bend turns with all that is welded to it, at a joint before it that is not.
    isHeld: piece.locked || isWelded(problem, demand),
    slot: 3 * index + 1,
    cuts: 0,
    adjusted: 1,
    clr: null,
  };
}

function isWelded({ jointStates }: MoveProblem, { first, last }: { readonly first: number; readonly last: number }) {
  return jointStates.slice(first, last + 1).every((state) => state === 'welded');
}

type WholeBend = BendAt<Bend> & {
  /** Frame after the bend. */
  readonly after: Frame;
};

/** The bend cut to another angle, and a bend of each other CLR on the shelf in place of it. */
export function bendVariables(problem: MoveProblem, bend: WholeBend): readonly Variable[] {
  const { stock, tube } = problem;
  const angle = angleVariable(problem, bend);
  if (stock === null) return [angle];
  const clrMm = mmOf(bend.piece.clr);
  const others = clrsOnShelf(stock, tube).filter((clr) => Math.abs(mmOf(clr) - clrMm) > SAME_SIZE_MM);
  const swaps = others.map((clr) => swapVariable(problem, bend, clr, largestAngleDeg(stock, clr, tube)));
  return [angle, ...swaps.filter(({ high }) => high >= LEAST_BEND_RAD)];
}

/** Up to what the bend has, or to the largest of its CLR on the shelf; where no shelf is looked at, a planned bend to 180. */
function angleVariable(problem: MoveProblem, bend: WholeBend): Variable {
  const { piece, index } = bend;
  const { stock, tube } = problem;
  const presentRad = radiansOf(piece.angleDeg);
  const onShelfRad = radiansOf(stock === null ? 0 : largestAngleDeg(stock, piece.clr, tube));
  const freeRad = stock === null && piece.state === 'planned' ? Math.PI : 0;
  return {
    ...commonOf(problem, bend),
    kind: 'angle',
    screw: bendScrew(bend, piece.clr, NO_VECTOR),
    high: Math.max(presentRad, onShelfRad, freeRad),
    start: presentRad,
    ...lessOrMore(index, problem.jointStates),
    clr: piece.clr,
  };
}

function swapVariable(problem: MoveProblem, bend: WholeBend, clr: Length, largestDeg: number): Variable {
  const { piece, index, joint, after } = bend;
  const high = radiansOf(largestDeg);
  // With its angle as it is, a larger bend moves everything after it along the chord of what its radius gains.
  const shift = scale(subtract(inwardAt(piece, joint), after.normal), mmOf(clr) - mmOf(piece.clr));
  return {
    ...commonOf(problem, bend),
    kind: 'swap',
    screw: bendScrew(bend, clr, shift),
    high,
    start: Math.min(radiansOf(piece.angleDeg), high),
    ...eitherWay({ kind: 'piece', pieceIndex: index, more: 0 }),
    clr,
  };
}

function commonOf({ holds }: MoveProblem, { piece, index }: WholeBend) {
  return {
    pieceIndex: index,
    present: radiansOf(piece.angleDeg),
    low: LEAST_BEND_RAD,
    isFixed: false,
    isHeld: holds[index] !== null,
    slot: 3 * index + 2,
    cuts: piece.state === 'planned' ? 0 : 1,
    adjusted: piece.state === 'planned' ? 1 : 0,
  } as const;
}

/** A turn about the bend's centre: a gain of angle carries everything after the bend round it. */
function bendScrew({ piece, index, joint, after }: WholeBend, clr: Length, shift: Vector): Screw {
  const clrMm = mmOf(clr);
  return {
    axis: binormalOf(after),
    through: addScaled(joint.point, inwardAt(piece, joint), clrMm),
    slide: NO_VECTOR,
    shift,
    lengthPer: clrMm,
    lengthShiftMm: (clrMm - mmOf(piece.clr)) * radiansOf(piece.angleDeg),
    order: 3 * index + 2,
  };
}

/** From the start of a bend to its centre. */
function inwardAt({ clockingDeg }: Bend, joint: Frame): Vector {
  return clockBy(joint, clockingDeg ?? 0).normal;
}
