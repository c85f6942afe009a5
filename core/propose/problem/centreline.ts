/** Between the length of a primary as welded and that of the new centreline in it. */

import { mmOf } from '../../units/length.ts';
import type { ProposeProblem } from './propose-problem.ts';
import type { WantedWindow } from './wanted-window.ts';

/** What the new centreline of so many bends, a straight before, between and after them, must measure for a length of the whole as welded. */
export function centrelineMm({ header, keptMm, keptPieces }: ProposeProblem, weldedMm: number, bends: number): number {
  const joints = keptPieces + 2 * bends;
  return weldedMm + mmOf(header.settings.weldShrinkage) * joints - keptMm;
}

/** The other way. */
export function weldedMm({ header, keptMm, keptPieces }: ProposeProblem, newMm: number, bends: number): number {
  return newMm + keptMm - mmOf(header.settings.weldShrinkage) * (keptPieces + 2 * bends);
}

/** The window of the new centreline; null where it is to be as short as can be. */
export function centrelineWindow(problem: ProposeProblem, bends: number): WantedWindow | null {
  const { window } = problem;
  if (window === null) return null;
  const of = (mm: number) => centrelineMm(problem, mm, bends);
  return { aimMm: of(window.aimMm), lowMm: of(window.lowMm), highMm: of(window.highMm) };
}
