/** Random steps of which a half-applied one shows: each marks the header and its first piece with the same number. */

import type { BatchEdit, SingleEdit } from '../../core/edits/edit.ts';
import type { Header, Piece } from '../../core/header/header.ts';
import { randomBelow } from './seeded-random.ts';

const MOST_PIECES = 40;

function markOf(step: string): string {
  return `step ${step}`;
}

function changed(piece: Piece, random: () => number): Piece {
  const eighth = (1 + randomBelow(random, 160)) / 8;
  if (piece.kind === 'straight') return { ...piece, length: { value: eighth, unit: 'in' } };
  return { ...piece, angleDeg: 1 + randomBelow(random, 180), clockingDeg: randomBelow(random, 360) - 180 };
}

/** One more edit of some other piece than the marked one. */
function anotherEdit(header: Header, step: string, random: () => number): readonly SingleEdit[] {
  const primary = header.primaries[randomBelow(random, header.primaries.length)];
  const last = primary?.pieces.at(-1);
  if (primary === undefined || last === undefined || primary.pieces.length < 2) return [];
  const choice = randomBelow(random, 3);
  if (choice === 0 && primary.pieces.length < MOST_PIECES) {
    const piece: Piece = { ...changed(last, random), id: `p${step}`, note: '' };
    return [{ kind: 'addPiece', primaryId: primary.id, piece, at: primary.pieces.length }];
  }
  if (choice === 1 && primary.pieces.length > 3) {
    return [{ kind: 'removePiece', primaryId: primary.id, pieceId: last.id }];
  }
  return [{ kind: 'replacePiece', primaryId: primary.id, piece: changed(last, random) }];
}

/** A batch for a header that has a first primary with a first piece. `step` must be new in this header. */
export function randomStep(header: Header, step: string, random: () => number): BatchEdit {
  const [primary] = header.primaries;
  const piece = primary?.pieces[0];
  if (primary === undefined || piece === undefined) throw new Error('the header needs a first piece to mark');
  return {
    kind: 'batch',
    label: markOf(step),
    edits: [
      { kind: 'setHeader', set: { note: markOf(step) } },
      ...anotherEdit(header, step, random),
      { kind: 'replacePiece', primaryId: primary.id, piece: { ...piece, note: markOf(step) } },
    ],
  };
}
