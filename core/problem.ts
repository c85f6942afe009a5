/** Every expected failure that the program can report. */

import type { HeaderProblem } from './header/header-problem.ts';
import type { LengthProblem } from './length/length-problem.ts';
import type { PathProblem, TableProblem } from './path/path-problem.ts';
import type { SheetProblem } from './sheet/sheet-problem.ts';
import type { StockProblem } from './stock/stock-problem.ts';
import type { StorageProblem } from './storage-problem.ts';
import type { UnitsProblem } from './units/units-problem.ts';

export type Problem =
  | UnitsProblem
  | HeaderProblem
  | StorageProblem
  | LengthProblem
  | StockProblem
  | SheetProblem
  | PathProblem
  | TableProblem;
