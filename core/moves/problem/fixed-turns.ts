/** Changes that turn the rest of the tube by an angle that nobody chooses: a bend taken out, a pie-cut bend less whole pies. */

import type { Bend, PieCutBend } from '../../header/header.ts';
import { pieceLength } from '../../length/piece-length.ts';
import { binormalOf, clockBy, type Frame } from '../../path/frame.ts';
import { addScaled } from '../../path/vector.ts';
import { radiansOf } from '../../units/angle.ts';
import { mmOf } from '../../units/length.ts';
import { NO_VECTOR, type Screw } from '../turning/end-motion.ts';
import type { FixedEnds } from './fixed-ends.ts';
import type { MoveProblem } from './move-problem.ts';
import { nextClocking } from './new-bends.ts';
import { eitherWay, inOneShape, lessOrMore, type Variable } from './variable.ts';

/** In order along the tube, what is held included. */
export function fixedTurns(problem: MoveProblem, ends: FixedEnds): readonly Variable[] {
  return problem.pieces.flatMap((piece, index): readonly Variable[] => {
    const joint = ends.joints[index];
    if (piece.kind === 'straight' || joint === undefined) return [];
    const bend = { piece, index, joint };
    const fewer = piece.kind === 'pieCut' ? fewerPies(problem, { ...bend, piece }) : [];
    return [...bendOut(problem, bend), ...fewer].map(inOneShape);
  });
}

interface BendAt<Shape extends Bend | PieCutBend> {
  readonly piece: Shape;
  readonly index: number;
  readonly joint: Frame;
}

/** None where the next bend's clocking is locked, or where it would become the first of a tube that nothing says the roll of. */
function bendOut(problem: MoveProblem, bend: BendAt<Bend | PieCutBend>): readonly Variable[] {
  const { index, piece } = bend;
  const isFirst = problem.pieces.findIndex(({ kind }) => kind !== 'straight') === index;
  if (nextClocking(problem, index + 1) === false || problem.pieces.length === 1) return [];
  if (isFirst && problem.primary.port === null) return [];
  const common = turnOf(problem, bend, 0);
  return [
    {
      ...common,
      kind: 'bendOut',
      screw: { ...common.screw, lengthShiftMm: problem.shrinkageMm },
      ...eitherWay({ kind: 'gone', pieceIndex: index }),
      cuts: 0,
      adjusted: piece.state === 'planned' ? 1 : 0,
    },
  ];
}

/** So many pies taken off, down to a single mitre: as a smooth bend cut down, it opens one joint and takes one cut, at a mitre. */
function fewerPies(problem: MoveProblem, bend: BendAt<PieCutBend>): readonly Variable[] {
  const { pies, angleDeg } = bend.piece;
  return Array.from({ length: pies - 1 }, (_, off): Variable => {
    const leftDeg = (angleDeg * (pies - 1 - off)) / pies;
    return { ...turnOf(problem, bend, radiansOf(leftDeg)), kind: 'pies' };
  });
}

/** The bend down to so many radians. A pie-cut bend ends where the smooth one would, so it turns the same way. */
function turnOf(problem: MoveProblem, { piece, index, joint }: BendAt<Bend | PieCutBend>, leftRad: number): Variable {
  const present = radiansOf(piece.angleDeg);
  const clocked = clockBy(joint, piece.clockingDeg ?? 0);
  const screw: Screw = {
    axis: binormalOf(clocked),
    through: addScaled(clocked.point, clocked.normal, mmOf(piece.clr)),
    slide: NO_VECTOR,
    shift: NO_VECTOR,
    lengthPer: pieceLength(piece) / present,
    lengthShiftMm: 0,
    order: 3 * index + 2,
  };
  return {
    kind: 'pies',
    pieceIndex: index,
    screw,
    present,
    low: leftRad,
    high: leftRad,
    start: leftRad,
    isFixed: false,
    ...lessOrMore(index, problem.jointStates),
    isHeld: problem.holds[index] !== null,
    slot: 3 * index + 2,
    cuts: piece.state === 'planned' ? 0 : 1,
    adjusted: piece.state === 'planned' ? 1 : 0,
    clr: piece.clr,
  };
}
