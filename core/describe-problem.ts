/** Turns any problem into a plain sentence: what was read, why it does not do, what would. Nothing else words problems. */

import { describeStorageProblem } from './describe-storage-problem.ts';
import { describeHeaderProblem } from './header/describe-header-problem.ts';
import { describeLengthProblem } from './length/describe-length-problem.ts';
import { describePathProblem, isPathProblem } from './path/describe-path-problem.ts';
import type { Problem } from './problem.ts';
import { assertNever } from './result.ts';
import { describeStockProblem } from './stock/describe-stock-problem.ts';
import { describeUnitsProblem } from './units/describe-units-problem.ts';

export function describeProblem(problem: Problem): string {
  if (isPathProblem(problem)) return describePathProblem(problem);
  switch (problem.kind) {
    case 'unreadableLength':
    case 'unreadableAngle':
      return describeUnitsProblem(problem);
    case 'unreadableFile':
    case 'newerFormat':
    case 'missingColumn':
    case 'unreadableEntry':
    case 'invalidValue':
    case 'unknownField':
    case 'duplicateId':
    case 'unknownId':
    case 'stillUsed':
    case 'placeOutOfList':
    case 'tooMany':
    case 'moreProblems':
    case 'headerFinished':
    case 'headerNotFinished':
      return describeHeaderProblem(problem);
    case 'measureNotPositive':
    case 'measureTooLong':
    case 'noInsideArc':
      return describeLengthProblem(problem);
    case 'stockColumnMissing':
    case 'stockColumnUnknown':
    case 'stockColumnTwice':
    case 'stockListEmpty':
    case 'stockRowTooLong':
    case 'stockCellEmpty':
    case 'stockCellNotWanted':
    case 'stockCellRefused':
      return describeStockProblem(problem);
    case 'storage':
    case 'changedElsewhere':
    case 'notFound':
    case 'finished':
    case 'nothingToUndo':
    case 'invalidRequest':
    case 'internal':
      return describeStorageProblem(problem);
    default:
      return assertNever(problem);
  }
}
