/** Moves with exact figures, which no saw would cut: for comparisons with solvers that know no saw. */

import type { Header } from '../../../core/header/header.ts';
import type { ClosenessPrices } from '../../../core/moves/linear/shift-windows.ts';
import type { MoveOutcome } from '../../../core/moves/outcome.ts';
import { readMoveProblem } from '../../../core/moves/problem/move-problem.ts';
import type { MoveOptions } from '../../../core/moves/question.ts';
import { solve } from '../../../core/moves/suggest-moves.ts';

export function exactMoves(
  header: Header,
  primaryId: string,
  options: MoveOptions,
  closeness?: ClosenessPrices,
): MoveOutcome {
  const read = readMoveProblem(header, primaryId, options);
  if (!read.ok) throw new Error(`Not readable: ${read.reason.kind}`);
  const steps = solve({ ...read.problem, rounding: 'none', ...(closeness === undefined ? {} : { closeness }) });
  for (;;) {
    const { done, value } = steps.next();
    if (done === true) return value;
  }
}
