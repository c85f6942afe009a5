/** Everything about a primary that a move may change, in order along the tube. */

import { bendVariables, clocking } from './bend-variables.ts';
import type { FixedEnds } from './fixed-ends.ts';
import type { MoveProblem } from './move-problem.ts';
import { letIn, straightVariables } from './straight-variables.ts';
import { inOneShape, type Variable } from './variable.ts';

/** All variables, held ones included, in order along the tube. */
export function variablesOf(problem: MoveProblem, ends: FixedEnds): readonly Variable[] {
  const found: Variable[] = [];
  const { pieces } = problem;
  let beforeBend = -1;
  for (let index = 0; index <= pieces.length; index += 1) {
    const joint = ends.joints[index];
    const after = ends.joints[index + 1];
    const piece = pieces[index];
    if (joint === undefined) break;
    if (isBare(problem, index)) found.push(letIn(problem, index, joint));
    if (piece === undefined || after === undefined) break;
    if (piece.kind === 'straight') {
      found.push(...straightVariables(problem, { piece, index, tangent: joint.tangent }));
      continue;
    }
    const isFirst = beforeBend < 0;
    // Without a port nothing says how the whole tube is rolled, so that turning its first bend changes nothing.
    if (!(isFirst && problem.primary.port === null)) {
      found.push(clocking(problem, { piece, index, joint }, beforeBend + 1));
    }
    if (piece.kind === 'bend') found.push(...bendVariables(problem, { piece, index, joint, after }));
    beforeBend = index;
  }
  return found.map(inOneShape);
}

/** Whether neither side of a joint is a straight that could be made longer instead. */
function isBare({ pieces, holds }: MoveProblem, joint: number): boolean {
  return [joint - 1, joint].every((index) => pieces[index]?.kind !== 'straight' || holds[index] !== null);
}
