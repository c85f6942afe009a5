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
 * The least that a change asks of the joints. A piece that is cut, replaced or taken out comes out at both ends. A straight let in
 * between two pieces opens the joint there. Re-clocking a bend needs one free joint anywhere between the bend before it
 * and itself, since straights in between may turn with either; which one is chosen so that the fewest come apart.
 */
export type JointDemand =
  | { readonly kind: 'piece'; readonly pieceIndex: number }
  | { readonly kind: 'joint'; readonly joint: number }
  | { readonly kind: 'oneOf'; readonly first: number; readonly last: number };

/** Joints that come apart for the given demands, lowest place first; open ones are listed too, the inlet's is not. */
export function freedJoints(demands: readonly JointDemand[], states: readonly JointState[]): readonly number[] {
  const freed: number[] = [];
  const free = (joint: number) => {
    if (joint < states.length && !freed.includes(joint)) freed.push(joint);
  };
  for (const demand of demands) {
    if (demand.kind === 'piece') {
      free(demand.pieceIndex);
      free(demand.pieceIndex + 1);
    } else if (demand.kind === 'joint') free(demand.joint);
  }
  for (const demand of demands) if (demand.kind === 'oneOf') free(easiestJoint(demand, states, freed));
  return freed.sort((a, b) => a - b);
}

const EASE: Readonly<Record<JointState, number>> = { open: 1, tacked: 2, welded: 3 };

function easiestJoint(
  { first, last }: { readonly first: number; readonly last: number },
  states: readonly JointState[],
  freed: readonly number[],
): number {
  let easiest = last;
  let least = Number.POSITIVE_INFINITY;
  // From the bend backwards: of equals, the joint at the bend itself.
  for (let joint = last; joint >= first; joint -= 1) {
    const ease = freed.includes(joint) ? 0 : EASE[states[joint] ?? 'open'];
    if (ease < least) [least, easiest] = [ease, joint];
  }
  return easiest;
}
