/** How many joints a step took apart that were tacked or welded: what a header's making cost in work done twice. */

import type { Header, Piece, Primary } from '../header/header.ts';
import { type JointDemand, jointStates, jointWork } from '../moves/problem/joints.ts';
import { mmOf } from '../units/length.ts';

/**
 * Joints that were tacked or welded before a step and must have come apart for it (common practice): the fewest that allow what
 * it changed. A piece made shorter opens one of its joints, one made longer or of another radius both; a bend re-clocked opens one
 * between it and the bend before it; pieces that no longer touch, and pieces no longer tacked, open theirs. A joint between two
 * pieces counts, and the one at the port's flange; the collector's end slips and never does. A primary taken out as a whole is
 * scrapped rather than opened, and counts for nothing.
 *
 * Zero or more. Linear in the pieces of the primaries that the step changed.
 */
export function jointsOpened(before: Header, after: Header): number {
  return before.primaries.reduce((sum, primary) => {
    const now = after.primaries.find(({ id }) => id === primary.id);
    return now === undefined || now.pieces === primary.pieces ? sum : sum + openedIn(primary, now);
  }, 0);
}

function openedIn(before: Primary, after: Primary): number {
  const places = new Map(after.pieces.map((piece, index) => [piece.id, { piece, index }]));
  const demands = before.pieces.flatMap((piece, pieceIndex): readonly JointDemand[] => {
    const now = places.get(piece.id);
    if (now === undefined) return [{ kind: 'gone', pieceIndex }];
    const previous = before.pieces[pieceIndex - 1];
    const isMoved = after.pieces[now.index - 1]?.id !== previous?.id;
    // One that is gone has opened the joint already, and what follows it has come to another place by that.
    const isBesideGone = previous !== undefined && !places.has(previous.id);
    return [
      ...(isMoved && !isBesideGone ? [{ kind: 'joint', joint: pieceIndex, more: 0 } as const] : []),
      ...changeDemands(before.pieces, pieceIndex, now.piece),
    ];
  });
  return jointWork(demands, jointStates(before.pieces)).opened.length;
}

function changeDemands(pieces: readonly Piece[], pieceIndex: number, now: Piece): readonly JointDemand[] {
  const piece = pieces[pieceIndex];
  if (piece === undefined || piece === now) return [];
  if (isHeld(piece) && !isHeld(now)) return [{ kind: 'piece', pieceIndex, more: 0 }];
  const size = sizeChange(piece, now);
  if (size === 'other') return [{ kind: 'piece', pieceIndex, more: 0 }];
  const shorter: readonly JointDemand[] =
    size === 'shorter' ? [{ kind: 'oneOf', first: pieceIndex, last: pieceIndex + 1 }] : [];
  return isTurned(piece, now)
    ? [...shorter, { kind: 'oneOf', first: afterBendBefore(pieces, pieceIndex), last: pieceIndex }]
    : shorter;
}

function isHeld({ state }: Piece): boolean {
  return state === 'tacked' || state === 'welded';
}

/** `shorter`: the piece itself may have been taken off and sawn; `other`: another had to take its place. */
function sizeChange(before: Piece, after: Piece): 'same' | 'shorter' | 'other' {
  if (before.kind === 'straight' && after.kind === 'straight') return compared(mmOf(after.length), mmOf(before.length));
  if (before.kind === 'straight' || after.kind === 'straight' || before.kind !== after.kind) return 'other';
  if (mmOf(before.clr) !== mmOf(after.clr)) return 'other';
  if (before.kind === 'pieCut' && after.kind === 'pieCut' && before.pies !== after.pies) return 'other';
  const size = compared(after.angleDeg, before.angleDeg);
  // A pie-cut bend is no shorter version of another: its pies are cut at another angle.
  return size === 'shorter' && before.kind === 'pieCut' ? 'other' : size;
}

function compared(after: number, before: number): 'same' | 'shorter' | 'other' {
  return after === before ? 'same' : after < before ? 'shorter' : 'other';
}

/** A clocking that is written down for the first time turns nothing, nor does one written another way: 350 is -10. */
function isTurned(before: Piece, after: Piece): boolean {
  if (before.kind === 'straight' || after.kind === 'straight') return false;
  const [from, to] = [before.clockingDeg, after.clockingDeg];
  return from !== null && to !== null && (to - from) % 360 !== 0;
}

/** The first joint after the bend before this one, at any of which this one may turn; the port's flange where there is none. */
function afterBendBefore(pieces: readonly Piece[], pieceIndex: number): number {
  return pieces.slice(0, pieceIndex).findLastIndex(({ kind }) => kind !== 'straight') + 1;
}
