/** Chosen values as changes that can be said, marked and made. */

import type { Piece } from '../../header/header.ts';
import type { MoveChange } from '../move.ts';
import type { MoveProblem } from '../problem/move-problem.ts';
import type { Setting } from '../problem/setting.ts';

/** The changes in the order of the tube, as data for sentences and marks. */
export function changesOf({ pieces }: MoveProblem, settings: readonly Setting[]): readonly MoveChange[] {
  return settings.flatMap((setting) => {
    const change = changeOf(pieces, setting);
    return change === null ? [] : [change];
  });
}

function changeOf(pieces: readonly Piece[], { variable, length, angleDeg }: Setting): MoveChange | null {
  const { kind, pieceIndex } = variable;
  const piece = pieces[pieceIndex];
  if (kind === 'letIn') return length === null ? null : { kind, joint: pieceIndex, length };
  if (piece === undefined) return null;
  if (piece.kind === 'straight') {
    if (kind === 'takeOut') return { kind, pieceIndex, from: piece.length };
    return length === null ? null : { kind: 'length', pieceIndex, from: piece.length, to: length };
  }
  if (angleDeg === null) return null;
  if (kind === 'clocking') return { kind, pieceIndex, fromDeg: piece.clockingDeg ?? 0, toDeg: angleDeg };
  const angles = { pieceIndex, fromDeg: piece.angleDeg, toDeg: angleDeg };
  if (kind === 'angle') return { kind, ...angles };
  return variable.clr === null ? null : { kind: 'swap', ...angles, fromClr: piece.clr, toClr: variable.clr };
}
