/** A rounded tube as pieces that are planned. */

import type { Piece, Primary } from '../../header/header.ts';
import { mmOf } from '../../units/length.ts';
import type { ProposeProblem } from '../problem/propose-problem.ts';
import { clrOf } from './candidate.ts';
import type { RoundedShape } from './round-shape.ts';

/** Straights of zero are left out. */
export function piecesOf(
  problem: ProposeProblem,
  { straights, bends }: RoundedShape,
  newId: () => string,
): readonly Piece[] {
  const common = () => ({ id: newId(), state: 'planned', locked: false, note: '' }) as const;
  return straights.flatMap((length, index): readonly Piece[] => {
    const bend = bends[index - 1];
    const straight: readonly Piece[] = mmOf(length) > 0 ? [{ kind: 'straight', ...common(), length }] : [];
    if (bend === undefined) return straight;
    const { clrMm, angleDeg, clockingDeg } = bend;
    return [{ kind: 'bend', ...common(), clr: clrOf(problem, clrMm), angleDeg, clockingDeg }, ...straight];
  });
}

/** The primary as it would be. */
export function primaryWith({ primary, keptPieces }: ProposeProblem, pieces: readonly Piece[]): Primary {
  return { ...primary, pieces: [...primary.pieces.slice(0, keptPieces), ...pieces] };
}
