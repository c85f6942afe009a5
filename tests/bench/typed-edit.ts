/** The edit that a person makes most: one piece of the header gets another size. */

import type { Edit } from '../../core/edits/edit.ts';
import type { Header, Piece } from '../../core/header/header.ts';
import { inches } from '../../core/units/length.ts';

/** Another piece and another size with every turn. */
export function retypedPiece(header: Header, turn: number): Edit {
  const primary = header.primaries[turn % header.primaries.length];
  const piece = primary?.pieces[turn % primary.pieces.length];
  if (primary === undefined || piece === undefined) throw new Error('the demo header has lost its pieces');
  const sizes = piece.kind === 'straight' ? { length: inches(1 + (turn % 64) / 16) } : { angleDeg: 15 + (turn % 90) };
  return { kind: 'replacePiece', primaryId: primary.id, piece: { ...piece, ...sizes } as Piece };
}
