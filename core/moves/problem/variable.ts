/** One thing about a primary that a move may change: its screw, its limits and what it costs to touch. */

import { pieceLength } from '../../length/piece-length.ts';
import type { Length } from '../../units/length.ts';
import type { Screw } from '../turning/end-motion.ts';
import type { JointDemand } from './joints.ts';
import type { MoveProblem } from './move-problem.ts';

export type VariableKind = 'length' | 'takeOut' | 'letIn' | 'clocking' | 'angle' | 'swap';

export interface Variable {
  readonly kind: VariableKind;
  /** Index of the piece; for a straight let in, of the piece that it comes before. */
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
