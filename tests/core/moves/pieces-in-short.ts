/** Pieces written in short, for cases that are told from one to another: `S2.125` is a straight, `B3/30/175` a bend of CLR 3, 30 degrees, clocked 175. */

import type { Piece, PieceState } from '../../../core/header/header.ts';
import type { LengthUnit } from '../../../core/units/length.ts';

export interface Short {
  readonly unit: LengthUnit;
  readonly state?: PieceState;
}

export function piecesInShort(text: string, { unit, state = 'tacked' }: Short): readonly Piece[] {
  return text.split(' ').map((word, index): Piece => {
    const common = { id: `p${index}`, state, locked: false, note: '' };
    const [first = Number.NaN, angleDeg = Number.NaN, clockingDeg = Number.NaN] = word.slice(1).split('/').map(Number);
    const length = { value: first, unit };
    if (word.startsWith('S')) return { kind: 'straight', ...common, length };
    return { kind: 'bend', ...common, clr: length, angleDeg, clockingDeg };
  });
}
