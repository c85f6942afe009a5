/** Which pieces a move cuts and which it frees, in a word or two for the grid. */

import { assertNever, type Header, type Move, type MoveChange, mmOf, type Piece } from '../../../core/index.ts';

/** Words by piece id; pieces that a move leaves alone have none. */
export type PieceMarks = ReadonlyMap<string, string>;

export const NO_MARKS: PieceMarks = new Map();

/** `header` is the header before the moves. A piece on either side of a joint that comes apart is freed. */
export function pieceMarks(header: Header, moves: readonly Move[]): PieceMarks {
  const words = new Map<string, string[]>();
  for (const move of moves) {
    const pieces = header.primaries.find(({ id }) => id === move.primaryId)?.pieces ?? [];
    const mark = (index: number, word: string) => {
      const id = pieces[index]?.id;
      if (id === undefined) return;
      const said = words.get(id) ?? [];
      if (!said.includes(word)) words.set(id, [...said, word]);
    };
    for (const change of move.changes) markChange(change, pieces, mark);
    for (const joint of move.cost.jointsBroken) {
      // The first joint is the port's flange, which is no piece.
      if (joint > 0) mark(joint - 1, 'freed');
      mark(joint, 'freed');
    }
  }
  return new Map([...words].map(([id, said]) => [id, said.join(', ')]));
}

type Mark = (index: number, word: string) => void;

/** What is only planned takes no saw. */
function markChange(change: MoveChange, pieces: readonly Piece[], mark: Mark): void {
  const isPlanned = 'pieceIndex' in change && pieces[change.pieceIndex]?.state === 'planned';
  switch (change.kind) {
    case 'length':
      mark(change.pieceIndex, isPlanned ? 'changed' : mmOf(change.to) < mmOf(change.from) ? 'cut' : 'replaced');
      return;
    case 'pies':
      mark(change.pieceIndex, isPlanned ? 'changed' : 'cut');
      return;
    case 'takeOut':
    case 'bendOut':
      mark(change.pieceIndex, 'taken out');
      return;
    case 'clocking':
      mark(change.pieceIndex, 're-clocked');
      return;
    case 'angle':
      mark(change.pieceIndex, isPlanned ? 'changed' : change.toDeg < change.fromDeg ? 'cut' : 'replaced');
      return;
    case 'swap':
    case 'kick':
      mark(change.pieceIndex, 'replaced');
      return;
    case 'letIn':
    case 'bendIn':
    case 'bendPair':
      if (change.joint < pieces.length) mark(change.joint, 'new before it');
      else mark(pieces.length - 1, 'new after it');
      return;
    default:
      assertNever(change);
  }
}
