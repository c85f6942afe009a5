/** Says in one plain sentence why a strip or a fixture sheet cannot be made, and what would do. */

import { assertNever } from '../result.ts';
import { formatLength } from '../units/format-length.ts';
import type { SheetProblem, StripField } from './sheet-problem.ts';

const FIELDS: Readonly<Record<StripField, { readonly words: string; readonly isAngle: boolean }>> = {
  runOd: { words: 'OD of the run', isAngle: false },
  branchOd: { words: 'OD of the branch', isAngle: false },
  tubeOd: { words: 'OD of the tubes', isAngle: false },
  angle: { words: 'angle between the axes', isAngle: true },
  lean: { words: 'lean angle', isAngle: true },
};

/** Lengths are given in both units, since a problem does not know the display. */
export function describeSheetProblem(problem: SheetProblem): string {
  switch (problem.kind) {
    case 'copePastRun':
      return `A branch of ${bothUnits(problem.branchMm)} that sits ${bothUnits(Math.abs(problem.offsetMm))} off the middle reaches past a run of ${bothUnits(problem.runMm)}: choose less offset or a smaller branch.`;
    case 'stripFigure': {
      const { words, isAngle } = FIELDS[problem.field];
      const show = (value: number) => (isAngle ? `${value}°` : bothUnits(value));
      return `The ${words} is ${show(problem.value)}: type one from ${show(problem.low)} to ${show(problem.high)}.`;
    }
    case 'stripWall':
      return `A wall of ${bothUnits(problem.wallMm)} leaves no bore in a tube of ${bothUnits(problem.odMm)} OD: check both.`;
    case 'piesCross':
      return `The cuts of this pie-cut bend run into each other on the inside by ${bothUnits(-problem.throatMm)}: give it more CLR or fewer pies.`;
    case 'mergeOutlet':
      return `An outlet of ${bothUnits(problem.outletMm)} does not fit: type one from ${bothUnits(problem.lowMm)}, which is one tube, to under ${bothUnits(problem.highMm)}, which is the whole bundle.`;
    case 'stripTooLarge':
      return `${problem.name} comes to ${bothUnits(problem.widthMm)} by ${bothUnits(problem.heightMm)}, which is too much paper in true size: check its lengths, or choose a scale.`;
    case 'placesInLine':
      return 'The two ports and the inlet lie in one line, so the header would not stand on them: choose another port or inlet.';
    default:
      return assertNever(problem);
  }
}

function bothUnits(mm: number): string {
  if (!Number.isFinite(mm)) return 'not a number';
  const inches = formatLength(mm, { kind: 'decimalInch', places: 3 });
  return `${formatLength(mm, { kind: 'mm', places: 1 })} (${inches})`;
}
