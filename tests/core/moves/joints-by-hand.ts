/** Joints to be made, counted by going through every choice: no greedy rule, no shared code. */

import type { Piece } from '../../../core/header/header.ts';

/** What is done to a piece, or to the joint before it. */
export type Act =
  | { readonly kind: 'shorter' | 'replaced' | 'gone' | 'reclocked'; readonly at: number }
  | { readonly kind: 'letIn'; readonly at: number; readonly pieces: number }
  /** So many pieces in place of one. */
  | { readonly kind: 'kicked'; readonly at: number; readonly pieces: number };

/** Whether the joint before a piece is held; that of the collector, after the last piece, never is. */
export function isHeldJoint(pieces: readonly Piece[], joint: number): boolean {
  const holds = (piece: Piece | undefined) => piece?.state === 'tacked' || piece?.state === 'welded';
  return joint < pieces.length && holds(pieces[joint]) && (joint === 0 || holds(pieces[joint - 1]));
}

/** The fewest joints to be made over all choices of joints to open, by trying each set of them. */
export function jointsByHand(pieces: readonly Piece[], acts: readonly Act[]): number {
  const held = pieces.flatMap((_, joint) => (isHeldJoint(pieces, joint) ? [joint] : []));
  let fewest = Number.POSITIVE_INFINITY;
  for (let choice = 0; choice < 2 ** held.length; choice += 1) {
    const opened = new Set(held.filter((_, bit) => ((choice >> bit) & 1) === 1));
    const isApart = (joint: number) => !isHeldJoint(pieces, joint) || opened.has(joint);
    if (!acts.every((act) => isPossible(pieces, act, isApart))) continue;
    fewest = Math.min(fewest, opened.size + added(pieces, acts));
  }
  return fewest;
}

function isPossible(pieces: readonly Piece[], act: Act, isApart: (joint: number) => boolean): boolean {
  const { at } = act;
  switch (act.kind) {
    case 'shorter':
      return isApart(at) || isApart(at + 1);
    case 'letIn':
      return isApart(at);
    case 'reclocked': {
      let first = at;
      while (first > 0 && pieces[first - 1]?.kind === 'straight') first -= 1;
      return Array.from({ length: at - first + 1 }, (_, step) => first + step).some(isApart);
    }
    default:
      return isApart(at) && isApart(at + 1);
  }
}

function added(pieces: readonly Piece[], acts: readonly Act[]): number {
  return acts.reduce((sum, act) => {
    if (act.kind === 'letIn') return sum + act.pieces;
    if (act.kind === 'kicked') return sum + act.pieces - 1;
    const wasJoined = isHeldJoint(pieces, act.at) || isHeldJoint(pieces, act.at + 1);
    return act.kind === 'gone' && wasJoined ? sum - 1 : sum;
  }, 0);
}
