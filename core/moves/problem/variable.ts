/** One thing about a primary that a move may change: its screw, its limits and what it costs to touch. */

import { pieceLength } from '../../length/piece-length.ts';
import type { Length } from '../../units/length.ts';
import type { Touch } from '../ranking/cost-tally.ts';
import type { Screw } from '../turning/end-motion.ts';
import { type JointDemand, type JointState, jointWork } from './joints.ts';
import type { MoveProblem } from './move-problem.ts';

export type VariableKind =
  | 'length'
  | 'takeOut'
  | 'letIn'
  | 'clocking'
  | 'angle'
  | 'swap'
  /** A bend taken out, and a pie-cut bend with fewer pies: turns with no value to choose. */
  | 'bendOut'
  | 'pies'
  /** Plane and angle of a bend let in. */
  | 'newClocking'
  | 'newAngle';

export interface Variable {
  readonly kind: VariableKind;
  /** Index of the piece; for what is let in, of the piece that it comes before. */
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
  /** Of the joints, when the value falls or has none: the least that the change asks for. */
  readonly demand: JointDemand;
  /** When the value rises: a piece made longer is replaced. */
  readonly demandOfMore: JointDemand;
  /** Whether rising takes more joints than falling. */
  readonly isDearerRising: boolean;
  /** The piece is locked or welded. */
  readonly isHeld: boolean;
  /** Two variables of one slot cannot change together. */
  readonly slot: number;
  readonly cuts: number;
  readonly adjusted: number;
  /** Bends that it adds; none when left out. */
  readonly bends?: number;
  /** CLR of the bend after the change; null for what is no bend. */
  readonly clr: Length | null;
}

/** The joints of a piece that is taken off at one end and sawn to be made less, and replaced to be made more. */
export function lessOrMore(
  pieceIndex: number,
  states: readonly JointState[],
): Pick<Variable, 'demand' | 'demandOfMore' | 'isDearerRising'> {
  const demand = { kind: 'oneOf', first: pieceIndex, last: pieceIndex + 1 } as const;
  const demandOfMore = { kind: 'piece', pieceIndex, more: 0 } as const;
  const isDearerRising = jointWork([demandOfMore], states).made > jointWork([demand], states).made;
  return { demand, demandOfMore, isDearerRising };
}

/** The same joints whichever way the value goes. */
export function eitherWay(demand: JointDemand): Pick<Variable, 'demand' | 'demandOfMore' | 'isDearerRising'> {
  return { demand, demandOfMore: demand, isDearerRising: false };
}

/** What it costs to change the variable by so much. */
export function touchOf(variable: Variable, value: number): Touch {
  return value > 0 ? { ...variable, demand: variable.demandOfMore } : variable;
}

/**
 * The same, with the fields that all variables have in one order: a search reads them a million times, which is a tenth quicker where
 * the engine finds all of them laid out alike.
 */
export function inOneShape(variable: Variable): Variable {
  const { axis, through, slide, shift, lengthPer, lengthShiftMm, order } = variable.screw;
  return {
    kind: variable.kind,
    pieceIndex: variable.pieceIndex,
    screw: { axis, through, slide, shift, lengthPer, lengthShiftMm, order },
    present: variable.present,
    low: variable.low,
    high: variable.high,
    start: variable.start,
    isFixed: variable.isFixed,
    demand: variable.demand,
    demandOfMore: variable.demandOfMore,
    isDearerRising: variable.isDearerRising,
    isHeld: variable.isHeld,
    slot: variable.slot,
    cuts: variable.cuts,
    adjusted: variable.adjusted,
    bends: variable.bends ?? 0,
    clr: variable.clr,
  };
}

/** Centreline length of a piece in mm, for an index that may be past the last piece. */
export function lengthAtMm({ pieces }: MoveProblem, index: number): number {
  const piece = pieces[index];
  return piece === undefined ? 0 : pieceLength(piece);
}

/** How far the screws of variables may go from how they lie now. */
export function valueLimits(variables: readonly Variable[]): { readonly low: number[]; readonly high: number[] } {
  return {
    low: variables.map(({ isFixed, low, present }) => (isFixed ? 0 : low - present)),
    high: variables.map(({ isFixed, high, present }) => (isFixed ? 0 : high - present)),
  };
}
