/** Every expected failure that the program can report. */

import type { HeaderProblem } from './header/header-problem.ts';
import type { StorageProblem } from './storage-problem.ts';
import type { UnitsProblem } from './units/units-problem.ts';

export type Problem = UnitsProblem | HeaderProblem | StorageProblem;
