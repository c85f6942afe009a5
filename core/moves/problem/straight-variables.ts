/** What may change about straights: made shorter or longer, taken out, or let in. */

import type { Straight } from '../../header/header.ts';
import type { Frame } from '../../path/frame.ts';
import { scale, type Vector } from '../../path/vector.ts';
import { mmOf } from '../../units/length.ts';
import { NO_VECTOR, type Screw } from '../turning/end-motion.ts';
import type { MoveProblem } from './move-problem.ts';
import { eitherWay, lessOrMore, type Variable } from './variable.ts';

const MOST_STRAIGHT_MM = 1e5;

function slide(tangent: Vector, order: number, jump: { shift: Vector; lengthShiftMm: number }): Screw {
  return { axis: NO_VECTOR, through: NO_VECTOR, slide: tangent, lengthPer: 1, order, ...jump };
}

export function letIn({ shortestMm, shrinkageMm, jointStates }: MoveProblem, joint: number, frame: Frame): Variable {
  const least = Math.max(shortestMm, 1);
  return {
    kind: 'letIn',
    pieceIndex: joint,
    screw: slide(frame.tangent, 3 * joint, { shift: NO_VECTOR, lengthShiftMm: -shrinkageMm }),
    present: 0,
    low: least,
    high: MOST_STRAIGHT_MM,
    start: least,
    isFixed: false,
    ...eitherWay({ kind: 'joint', joint, more: 1 }),
    isHeld: jointStates[joint] === 'welded',
    slot: 3 * joint,
    cuts: 1,
    adjusted: 0,
    clr: null,
  };
}

interface StraightAt {
  readonly piece: Straight;
  readonly index: number;
  readonly tangent: Vector;
}

/** The straight at another length, and gone. */
export function straightVariables(problem: MoveProblem, straight: StraightAt): readonly Variable[] {
  const isThere = mmOf(straight.piece.length) > 0;
  const length = lengthVariable(problem, straight, isThere);
  return isThere && problem.pieces.length > 1 ? [length, takeOutVariable(problem, straight)] : [length];
}

function lengthVariable(problem: MoveProblem, straight: StraightAt, isThere: boolean): Variable {
  const { piece, index, tangent } = straight;
  const { shortestMm, shrinkageMm } = problem;
  const presentMm = mmOf(piece.length);
  const leastMm = Math.max(shortestMm, isThere ? 0 : 1);
  const mayShrink = isThere && presentMm > leastMm;
  return {
    ...commonOf(problem, straight),
    kind: 'length',
    screw: slide(tangent, 3 * index + 1, { shift: NO_VECTOR, lengthShiftMm: isThere ? 0 : -shrinkageMm }),
    low: leastMm,
    high: MOST_STRAIGHT_MM,
    start: Math.max(presentMm, leastMm),
    isFixed: false,
    ...(mayShrink ? lessOrMore(index, problem.jointStates) : eitherWay({ kind: 'piece', pieceIndex: index, more: 0 })),
    cuts: piece.state === 'planned' ? 0 : 1,
  };
}

function takeOutVariable(problem: MoveProblem, straight: StraightAt): Variable {
  const { piece, index, tangent } = straight;
  const presentMm = mmOf(piece.length);
  const gone = { shift: scale(tangent, -presentMm), lengthShiftMm: problem.shrinkageMm - presentMm };
  return {
    ...commonOf(problem, straight),
    kind: 'takeOut',
    screw: slide(tangent, 3 * index + 1, gone),
    low: 0,
    high: 0,
    start: presentMm,
    isFixed: true,
    ...eitherWay({ kind: 'gone', pieceIndex: index }),
    cuts: 0,
  };
}

function commonOf({ holds }: MoveProblem, { piece, index }: StraightAt) {
  return {
    pieceIndex: index,
    present: mmOf(piece.length),
    isHeld: holds[index] !== null,
    slot: 3 * index + 2,
    adjusted: piece.state === 'planned' ? 1 : 0,
    clr: null,
  } as const;
}
