/** Turns any problem into a plain sentence: what was read, why it does not do, what would. Nothing else words problems. */

import { describeStorageProblem } from './describe-storage-problem.ts';
import { describeHeaderProblem } from './header/describe-header-problem.ts';
import type { HeaderProblem } from './header/header-problem.ts';
import { describeLengthProblem } from './length/describe-length-problem.ts';
import type { LengthProblem } from './length/length-problem.ts';
import { describePathProblem, isPathProblem } from './path/describe-path-problem.ts';
import type { Problem } from './problem.ts';
import { assertNever } from './result.ts';
import { describeSheetProblem } from './sheet/describe-sheet-problem.ts';
import type { SheetProblem } from './sheet/sheet-problem.ts';
import { describeStockProblem } from './stock/describe-stock-problem.ts';
import type { StockProblem } from './stock/stock-problem.ts';
import type { StorageProblem } from './storage-problem.ts';
import { describeUnitsProblem } from './units/describe-units-problem.ts';
import type { UnitsProblem } from './units/units-problem.ts';

export function describeProblem(problem: Problem): string {
  if (isPathProblem(problem)) return describePathProblem(problem);
  if (isHeaderProblem(problem)) return describeHeaderProblem(problem);
  if (isStockProblem(problem)) return describeStockProblem(problem);
  if (isSheetProblem(problem)) return describeSheetProblem(problem);
  if (isStorageProblem(problem)) return describeStorageProblem(problem);
  if (isLengthProblem(problem)) return describeLengthProblem(problem);
  if (isUnitsProblem(problem)) return describeUnitsProblem(problem);
  return assertNever(problem);
}

/** Tells problems of one part of the house by their kinds; a kind that is missing from the list does not compile. */
function among<Part extends Problem>(kinds: Readonly<Record<Part['kind'], true>>) {
  return (problem: Problem): problem is Part => Object.hasOwn(kinds, problem.kind);
}

const isUnitsProblem = among<UnitsProblem>({ unreadableLength: true, unreadableAngle: true });

const isHeaderProblem = among<HeaderProblem>({
  unreadableFile: true,
  newerFormat: true,
  missingColumn: true,
  unreadableEntry: true,
  invalidValue: true,
  unknownField: true,
  duplicateId: true,
  unknownId: true,
  stillUsed: true,
  placeOutOfList: true,
  tooMany: true,
  moreProblems: true,
  headerFinished: true,
  headerNotFinished: true,
});

const isLengthProblem = among<LengthProblem>({ measureNotPositive: true, measureTooLong: true, noInsideArc: true });

const isStockProblem = among<StockProblem>({
  stockColumnMissing: true,
  stockColumnUnknown: true,
  stockColumnTwice: true,
  stockListEmpty: true,
  stockRowTooLong: true,
  stockCellEmpty: true,
  stockCellNotWanted: true,
  stockCellRefused: true,
  stockWallTooThick: true,
  stockClrTooTight: true,
  stockNotEnough: true,
  stockTooMany: true,
  remnantTooLarge: true,
  stockChangedSince: true,
  piecesChangedSince: true,
  planTurnedAlone: true,
});

const isSheetProblem = among<SheetProblem>({
  copePastRun: true,
  stripFigure: true,
  stripWall: true,
  piesCross: true,
  mergeOutlet: true,
  stripTooLarge: true,
  placesInLine: true,
});

const isStorageProblem = among<StorageProblem>({
  storage: true,
  changedElsewhere: true,
  notFound: true,
  damagedHeader: true,
  alteredHeader: true,
  finished: true,
  nothingToUndo: true,
  invalidRequest: true,
  workGone: true,
  pageUnknown: true,
  internal: true,
});
