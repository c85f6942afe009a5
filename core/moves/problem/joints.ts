/** Which joints of a primary are held by what, and which of them a change takes apart. */

import type { Piece } from '../../header/header.ts';

/**
 * `open`: nothing holds it yet. `tacked`: it comes apart with a cut-off wheel. `welded`: it does not.
 *
 * Joint i is the one before piece i; joint 0 is the port's flange, to which the first piece is tacked or welded when it
 * is so itself. The collector end slips into its inlet and is never counted.
 */
export type JointState = 'open' | 'tacked' | 'welded';

export function jointStates(pieces: readonly Piece[]): readonly JointState[] {
  return pieces.map((piece, index): JointState => {
    const before = pieces[index - 1]?.state ?? piece.state;
    if (before === 'welded' && piece.state === 'welded') return 'welded';
    const isHeld = (state: Piece['state']) => state === 'tacked' || state === 'welded';
    return isHeld(before) && isHeld(piece.state) ? 'tacked' : 'open';
  });
}

/**
 * The least that a change asks of the joints (common practice).
 *
 * `piece`: both ends of a piece come apart, since another takes its place. `gone`: both come apart, and one joint is made of them.
 * `joint`: that joint comes apart, for what is let in there. `more`: joints beyond those, one for each piece more. `oneOf`: one joint from `first` to `last` is enough. A piece
 * that is only made shorter is taken off at one end, sawn and put back. A bend is re-clocked at any joint between the bend
 * before it and itself, since straights in between may turn with either. Which one is chosen so that the fewest come apart.
 */
export type JointDemand =
  | { readonly kind: 'piece'; readonly pieceIndex: number; readonly more: number }
  | { readonly kind: 'gone'; readonly pieceIndex: number }
  | { readonly kind: 'joint'; readonly joint: number; readonly more: number }
  | { readonly kind: 'oneOf'; readonly first: number; readonly last: number };

/** What the joints come to for a set of demands. */
export interface JointWork {
  /** Tacked and welded joints that come apart, lowest index first. */
  readonly opened: readonly number[];
  /** Joints to be made: those opened and made again, and one more for each piece let in, one less for each taken out. */
  readonly made: number;
}

/**
 * The fewest joints that meet all demands. Those of whole pieces and of what is let in are given; what is left are stretches
 * of the tube in each of which one joint must be open. Taken by their far ends, each that is not met yet is met at its last
 * tacked joint, which serves most of those that follow: no choice needs fewer. Welded joints only where nothing else is there.
 */
export function jointWork(demands: readonly JointDemand[], states: readonly JointState[]): JointWork {
  const opened = new Set<number>();
  const open = (joint: number) => {
    if ((states[joint] ?? 'open') !== 'open') opened.add(joint);
  };
  let more = 0;
  for (const demand of demands) {
    if (demand.kind === 'oneOf') continue;
    more += moreJoints(demand, states);
    open(demand.kind === 'joint' ? demand.joint : demand.pieceIndex);
    if (demand.kind !== 'joint') open(demand.pieceIndex + 1);
  }
  const stretches = demands.filter((demand) => demand.kind === 'oneOf').sort((a, b) => a.last - b.last);
  for (const { first, last } of stretches) {
    const joint = jointToOpen({ first, last }, states, opened);
    if (joint !== null) opened.add(joint);
  }
  return { opened: [...opened].sort((a, b) => a - b), made: opened.size + more };
}

/** Joints to be made beyond those opened; one less where a piece that was joined is gone. */
export function moreJoints(demand: JointDemand, states: readonly JointState[]): number {
  if (demand.kind === 'oneOf') return 0;
  if (demand.kind !== 'gone') return demand.more;
  const { pieceIndex } = demand;
  const isJoined = [pieceIndex, pieceIndex + 1].some((joint) => (states[joint] ?? 'open') !== 'open');
  return isJoined ? -1 : 0;
}

/** Null: one is open already. */
function jointToOpen(
  { first, last }: { readonly first: number; readonly last: number },
  states: readonly JointState[],
  opened: ReadonlySet<number>,
): number | null {
  let tacked: number | null = null;
  for (let joint = first; joint <= last; joint += 1) {
    const state = states[joint] ?? 'open';
    if (state === 'open' || opened.has(joint)) return null;
    if (state === 'tacked') tacked = joint;
  }
  return tacked ?? last;
}
