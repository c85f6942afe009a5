/** Everything about a primary that a move may change: each with its screw, its limits and what it costs to touch. */

import type { Bend, PieCutBend, Straight } from '../../header/header.ts';
import { pieceLength } from '../../length/piece-length.ts';
import { binormalOf, clockBy, type Frame } from '../../path/frame.ts';
import { addScaled, scale, subtract, type Vector } from '../../path/vector.ts';
import { clrsOnShelf } from '../../stock/shelf-match.ts';
import { radiansOf } from '../../units/angle.ts';
import { type Length, mmOf } from '../../units/length.ts';
import { NO_VECTOR, type Screw } from '../turning/end-motion.ts';
import type { JointDemand } from './joints.ts';
import type { FixedEnds, MoveProblem } from './move-problem.ts';
import { largestAngleDeg } from '../ranking/stock-needs.ts';

export type VariableKind = 'length' | 'takeOut' | 'letIn' | 'clocking' | 'angle' | 'swap';

export interface Variable {
  readonly kind: VariableKind;
  /** Place of the piece; for a straight let in, of the piece that it comes before. */
  readonly pieceIndex: number;
  readonly screw: Screw;
  /** Value in the present path, in mm or radians: the screw's value is what is added to it. */
  readonly present: number;
  /** Values that it may be given when it is changed at all. */
  readonly low: number;
  readonly high: number;
  /** Where a search starts from. */
  readonly start: number;
  /** Has no value to choose: a straight taken out. */
  readonly isFixed: boolean;
  readonly demand: JointDemand;
  /** The piece is locked or welded. */
  readonly isHeld: boolean;
  /** Two variables of one slot cannot change together. */
  readonly slot: number;
  readonly cuts: number;
  readonly adjusted: number;
  /** CLR of the bend after the change; null for what is no bend. */
  readonly clr: Length | null;
}

/** No bend is cut down to less than this. */
export const LEAST_BEND_DEG = 2;
const MOST_STRAIGHT_MM = 1e5;
const LEAST_BEND_RAD = radiansOf(LEAST_BEND_DEG);

/** All variables, held ones included, in order along the tube. */
export function variablesOf(problem: MoveProblem, ends: FixedEnds): readonly Variable[] {
  const found: Variable[] = [];
  const { pieces } = problem;
  let beforeBend = -1;
  for (let index = 0; index <= pieces.length; index += 1) {
    const joint = ends.joints[index];
    const after = ends.joints[index + 1];
    const piece = pieces[index];
    if (joint === undefined) break;
    if (isBare(problem, index)) found.push(letIn(problem, index, joint));
    if (piece === undefined || after === undefined) break;
    if (piece.kind === 'straight') {
      found.push(...straightVariables(problem, { piece, index, tangent: joint.tangent }));
      continue;
    }
    const isFirst = beforeBend < 0;
    // Without a port nothing says how the whole tube is rolled, so that turning its first bend changes nothing.
    if (!(isFirst && problem.primary.port === null)) {
      found.push(clocking(problem, { piece, index, joint }, beforeBend + 1));
    }
    if (piece.kind === 'bend') found.push(...bendVariables(problem, { piece, index, joint, after }));
    beforeBend = index;
  }
  return found;
}

/** Whether neither side of a joint is a straight that could be made longer instead. */
function isBare({ pieces }: MoveProblem, joint: number): boolean {
  return pieces[joint - 1]?.kind !== 'straight' && pieces[joint]?.kind !== 'straight';
}

function slide(tangent: Vector, order: number, jump: { shift: Vector; lengthShiftMm: number }): Screw {
  return { axis: NO_VECTOR, through: NO_VECTOR, slide: tangent, lengthPer: 1, order, ...jump };
}

function letIn({ shortestMm, shrinkageMm, jointStates }: MoveProblem, joint: number, frame: Frame): Variable {
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
    demand: { kind: 'joint', joint },
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

function straightVariables(problem: MoveProblem, { piece, index, tangent }: StraightAt): readonly Variable[] {
  const presentMm = mmOf(piece.length);
  const { shortestMm, shrinkageMm } = problem;
  const isThere = presentMm > 0;
  const common = {
    pieceIndex: index,
    present: presentMm,
    demand: { kind: 'piece', pieceIndex: index },
    isHeld: problem.holds[index] !== null,
    slot: 3 * index + 2,
    clr: null,
  } as const;
  const least = Math.max(shortestMm, isThere ? 0 : 1);
  const length: Variable = {
    ...common,
    kind: 'length',
    screw: slide(tangent, 3 * index + 1, { shift: NO_VECTOR, lengthShiftMm: isThere ? 0 : -shrinkageMm }),
    low: least,
    high: MOST_STRAIGHT_MM,
    start: Math.max(presentMm, least),
    isFixed: false,
    cuts: piece.state === 'planned' ? 0 : 1,
    adjusted: piece.state === 'planned' ? 1 : 0,
  };
  if (!isThere || problem.pieces.length < 2) return [length];
  const gone = { shift: scale(tangent, -presentMm), lengthShiftMm: shrinkageMm - presentMm };
  const takeOut: Variable = {
    ...common,
    kind: 'takeOut',
    screw: slide(tangent, 3 * index + 1, gone),
    low: 0,
    high: 0,
    start: presentMm,
    isFixed: true,
    cuts: 0,
    adjusted: piece.state === 'planned' ? 1 : 0,
  };
  return [length, takeOut];
}

interface BendAt<Shape extends Bend | PieCutBend> {
  readonly piece: Shape;
  readonly index: number;
  readonly joint: Frame;
}

function clocking(
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
    demand,
    isHeld: problem.holds[index] !== null || isWelded(problem, demand),
    slot: 3 * index + 1,
    cuts: 0,
    adjusted: 1,
    clr: null,
  };
}

function isWelded({ jointStates }: MoveProblem, { first, last }: { readonly first: number; readonly last: number }) {
  return jointStates.slice(first, last + 1).every((state) => state === 'welded');
}

/** The bend cut to another angle, and the same place with a bend of each other CLR on the shelf. */
function bendVariables(problem: MoveProblem, bend: BendAt<Bend> & { readonly after: Frame }): readonly Variable[] {
  const { piece, index, joint, after } = bend;
  const { stock, tube } = problem;
  const onShelfRad = radiansOf(stock === null ? 0 : largestAngleDeg(stock, piece.clr, tube));
  const presentRad = radiansOf(piece.angleDeg);
  const freeRad = stock === null && piece.state === 'planned' ? Math.PI : 0;
  const axis = binormalOf(after);
  const clrMm = mmOf(piece.clr);
  const inward = clockBy(joint, piece.clockingDeg ?? 0).normal;
  const common = {
    pieceIndex: index,
    present: presentRad,
    low: LEAST_BEND_RAD,
    isFixed: false,
    demand: { kind: 'piece', pieceIndex: index },
    isHeld: problem.holds[index] !== null,
    slot: 3 * index + 2,
    cuts: piece.state === 'planned' ? 0 : 1,
    adjusted: piece.state === 'planned' ? 1 : 0,
  } as const;
  const screwFor = (newClrMm: number, shift: Vector): Screw => ({
    axis,
    through: addScaled(joint.point, inward, newClrMm),
    slide: NO_VECTOR,
    shift,
    lengthPer: newClrMm,
    lengthShiftMm: (newClrMm - clrMm) * presentRad,
    order: 3 * index + 2,
  });
  const angle: Variable = {
    ...common,
    kind: 'angle',
    screw: screwFor(clrMm, NO_VECTOR),
    high: Math.max(presentRad, onShelfRad, freeRad),
    start: presentRad,
    clr: piece.clr,
  };
  if (stock === null) return [angle];
  const swaps = clrsOnShelf(stock, tube)
    .filter((clr) => Math.abs(mmOf(clr) - clrMm) > 0.01)
    .map((clr): Variable => {
      const high = radiansOf(largestAngleDeg(stock, clr, tube));
      const shift = scale(subtract(inward, after.normal), mmOf(clr) - clrMm);
      return {
        ...common,
        kind: 'swap',
        screw: screwFor(mmOf(clr), shift),
        high,
        start: Math.min(presentRad, high),
        clr,
      };
    });
  return [angle, ...swaps.filter(({ high }) => high >= LEAST_BEND_RAD)];
}

/** Centreline length of a piece in mm, for a place that may not exist. */
export function lengthAtMm({ pieces }: MoveProblem, index: number): number {
  const piece = pieces[index];
  return piece === undefined ? 0 : pieceLength(piece);
}
