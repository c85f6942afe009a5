/** The proof that an edit does what it is to do: applied, measured and traced anew. */

import { applyEdit } from '../../edits/apply-edit.ts';
import type { BatchEdit } from '../../edits/edit.ts';
import type { Header, Primary } from '../../header/header.ts';
import { matchHeader } from '../../length/match-header.ts';
import { type Closure, closureOf, isClosed } from '../../path/ends/closure.ts';
import { tracePrimary } from '../../path/trace-primary.ts';
import { mmOf } from '../../units/length.ts';
import type { FixedEnds } from '../problem/fixed-ends.ts';
import type { MoveProblem } from '../problem/move-problem.ts';

export interface Proof {
  readonly header: Header;
  readonly primary: Primary;
  readonly lengthMm: number;
  readonly deviationMm: number;
  readonly closure: Closure | null;
}

/** Applies the edit as it will be applied and looks at what comes out; null unless closed, in the band and workable. */
export function prove(problem: MoveProblem, ends: FixedEnds | null, edit: BatchEdit): Proof | null {
  const applied = applyEdit(problem.header, edit);
  if (!applied.ok) return null;
  const { header } = applied.value;
  const primary = header.primaries.find(({ id }) => id === problem.primary.id);
  if (primary === undefined || !hasWorkableStraights(problem, primary)) return null;
  const own = matchHeader(header).primaries.find(({ primaryId }) => primaryId === primary.id);
  if (own?.side !== 'inBand' || own.deviationMm === null) return null;
  const measured = { header, primary, lengthMm: own.lengthMm, deviationMm: own.deviationMm };
  if (ends === null) return { ...measured, closure: null };
  const path = tracePrimary(primary, primary.port);
  if (!path.ok) return null;
  const closure = closureOf(path.value.end, ends.wanted);
  return isClosed(closure, ends.limits) ? { ...measured, closure } : null;
}

/** A straight that was too short before and is left as it was is not this move's doing. */
function hasWorkableStraights({ pieces, shortestMm }: MoveProblem, primary: Primary): boolean {
  return primary.pieces.every((piece) => {
    if (piece.kind !== 'straight') return true;
    const lengthMm = mmOf(piece.length);
    if (lengthMm === 0 || lengthMm >= shortestMm - 1e-9) return true;
    const before = pieces.find(({ id }) => id === piece.id);
    return before?.kind === 'straight' && mmOf(before.length) === lengthMm;
  });
}
