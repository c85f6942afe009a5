/** What the document can let go so that a move is possible: locks, and the state of pieces whose weld has been cut. */

import type { Edit, Piece, Primary, SingleEdit, ToFree } from '../../core/index.ts';

export interface FreeOffer {
  /** On the button. */
  readonly name: string;
  readonly edit: Edit;
}

/** Null when nothing of it is in the document: a tack is let go at the bench, or by allowing more joints. */
export function freeOffer(primary: Primary, toFree: ToFree): FreeOffer | null {
  const locked = toFree.lockedPieces;
  // A weld is between two welded pieces: it is gone when the one after it counts as tacked again.
  const opened = [...new Set([...toFree.weldedPieces, ...toFree.weldedJoints])].sort((a, b) => a - b);
  const touched = [...new Set([...locked, ...opened])].sort((a, b) => a - b);
  const edits = touched.flatMap((index): readonly SingleEdit[] => {
    const piece = primary.pieces[index];
    if (piece === undefined) return [];
    return [{ kind: 'replacePiece', primaryId: primary.id, piece: freed(piece, locked.includes(index)) }];
  });
  const [first] = edits;
  if (first === undefined) return null;
  const names = [
    ...(locked.length === 0 ? [] : [`Unlock ${piecesWords(locked)}`]),
    ...(opened.length === 0
      ? []
      : [`${locked.length === 0 ? 'The weld is cut: make' : 'make'} ${piecesWords(opened)} tacked`]),
  ];
  const label = `free ${piecesWords(touched)} of primary ${primary.name.slice(0, 60)}`;
  return { name: names.join(' and '), edit: edits.length === 1 ? first : { kind: 'batch', label, edits } };
}

function freed(piece: Piece, isUnlocked: boolean): Piece {
  return {
    ...piece,
    locked: isUnlocked ? false : piece.locked,
    state: piece.state === 'welded' ? 'tacked' : piece.state,
  };
}

/** "piece 4", "pieces 4 and 6", "pieces 1, 2 and 5". */
function piecesWords(indexes: readonly number[]): string {
  const numbers = indexes.map((index) => String(index + 1));
  if (numbers.length === 1) return `piece ${numbers[0]}`;
  return `pieces ${numbers.slice(0, -1).join(', ')} and ${numbers.at(-1)}`;
}
