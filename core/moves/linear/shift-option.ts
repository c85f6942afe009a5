/** What straights, and bends of another CLR, can do for the end and the length once all turns are chosen. */

import type { Vector } from '../../path/vector.ts';
import type { MoveProblem } from '../problem/move-problem.ts';
import { lengthAtMm, type Variable } from '../problem/variable.ts';
import type { Touch } from '../ranking/cost-tally.ts';
import { type InletAxes, type Shift, shiftOf } from './shift.ts';

/** A variable that only shifts the rest of the tube: at once by `offset`, and by `column` per millimetre. */
export interface ShiftOption extends Touch {
  readonly variable: Variable;
  readonly slot: number;
  /** With its least value: a straight let in starts at the shortest one. */
  readonly offset: Shift;
  /** Null: nothing to choose. */
  readonly column: Shift | null;
  /** How far its value may go below and above that of the offset, mm. */
  readonly downMm: number;
  readonly upMm: number;
  /** Value that the offset stands for. */
  readonly baseValue: number;
  readonly tubeMm: number;
}

/** `turned` gives a direction as it lies once the turns have been made. */
export function shiftOption(
  problem: MoveProblem,
  variable: Variable,
  axes: InletAxes,
  turned: (direction: Vector, order: number) => Vector,
): ShiftOption {
  const { screw, kind, present, low, high } = variable;
  const common = {
    variable,
    slot: variable.slot,
    demand: variable.demand,
    isHeld: variable.isHeld,
    cuts: variable.cuts,
    adjusted: variable.adjusted,
  };
  if (kind === 'takeOut' || kind === 'swap') {
    const offset = shiftOf(axes, turned(screw.shift, screw.order), screw.lengthShiftMm);
    const tubeMm = kind === 'swap' ? lengthAtMm(problem, variable.pieceIndex) + screw.lengthShiftMm : 0;
    return { ...common, offset, column: null, downMm: 0, upMm: 0, baseValue: present, tubeMm };
  }
  const column = shiftOf(axes, turned(screw.slide, screw.order), 1);
  const baseValue = Math.max(present, low);
  const byMm = baseValue - present;
  const offset: Shift = [column[0] * byMm, column[1] * byMm, column[2] * byMm, column[3] * byMm + screw.lengthShiftMm];
  return { ...common, offset, column, downMm: baseValue - low, upMm: high - baseValue, baseValue, tubeMm: byMm };
}
