/** Says in one plain sentence why a bend cannot be told from a tape measure. */

import { assertNever } from '../result.ts';
import { formatLength } from '../units/format-length.ts';
import type { BendMeasure, LengthProblem } from './length-problem.ts';

const MEASURE_WORDS: Readonly<Record<BendMeasure, string>> = {
  clr: 'CLR',
  od: 'OD',
  outsideArc: 'arc along the outside',
  insideArc: 'arc along the inside',
  chord: 'end-to-end chord',
  height: 'height over the chord',
};

/** What was read, why not, what would do. Lengths are given in both units, since a problem does not know the display. */
export function describeLengthProblem(problem: LengthProblem): string {
  switch (problem.kind) {
    case 'measureNotPositive':
      return `The ${MEASURE_WORDS[problem.measure]} is ${bothUnits(problem.valueMm)}: measure again and type a length above zero.`;
    case 'measureTooLong':
      return `The ${MEASURE_WORDS[problem.measure]} of ${bothUnits(problem.valueMm)} is longer than a bend of this CLR can have, ${bothUnits(problem.limitMm)}: check it and the CLR.`;
    case 'noInsideArc':
      return `A tube of ${bothUnits(problem.odMm)} OD bent to ${bothUnits(problem.clrMm)} CLR has no inside arc: check the CLR, or measure the outside.`;
    default:
      return assertNever(problem);
  }
}

function bothUnits(mm: number): string {
  if (!Number.isFinite(mm)) return 'not a number';
  const inches = formatLength(mm, { kind: 'decimalInch', places: 3 });
  return `${formatLength(mm, { kind: 'mm', places: 1 })} (${inches})`;
}
