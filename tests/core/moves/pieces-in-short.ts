/**
 * Pieces written in short, for cases that are told from one to another: `S2.125` is a straight, `B3/30/175` a bend of CLR 3, 30
 * degrees, clocked 175; `P3/30/175/4` a pie-cut bend of as much in 4 pies. A letter at the end says the state where it is another than all others': p planned, t tacked, w welded;
 * `!` locks the piece.
 */

import type { Piece, PieceState } from '../../../core/header/header.ts';
import type { LengthUnit } from '../../../core/units/length.ts';

export interface Short {
  readonly unit: LengthUnit;
  readonly state?: PieceState;
}

const STATES: ReadonlyMap<string, PieceState> = new Map([
  ['p', 'planned'],
  ['t', 'tacked'],
  ['w', 'welded'],
]);

export function piecesInShort(text: string, { unit, state = 'tacked' }: Short): readonly Piece[] {
  return text.split(' ').map((word, index): Piece => {
    const [, figures = '', letter = '', lock = ''] = /^.([-\d./]+)([ptw]?)(!?)$/.exec(word) ?? [];
    const common = { id: `p${index}`, state: STATES.get(letter) ?? state, locked: lock === '!', note: '' };
    const [first = Number.NaN, angleDeg = Number.NaN, clockingDeg = Number.NaN, pies = Number.NaN] = figures
      .split('/')
      .map(Number);
    const length = { value: first, unit };
    if (word.startsWith('S')) return { kind: 'straight', ...common, length };
    if (word.startsWith('P')) return { kind: 'pieCut', ...common, clr: length, angleDeg, clockingDeg, pies };
    return { kind: 'bend', ...common, clr: length, angleDeg, clockingDeg };
  });
}
