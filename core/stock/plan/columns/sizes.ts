/** Pieces of one tube by size: pieces that are alike are one size with a count, which keeps a search from trying them all in turn. */

import { isSameSize } from '../../shelf-match.ts';
import { type CutJoint, FIT } from '../cut-problem.ts';
import type { TubeProblem } from '../tube-problem.ts';

export interface BendSize {
  readonly clrMm: number;
  readonly angleDeg: number;
  /** Ids of the pieces of this size. */
  readonly ids: readonly string[];
}

export interface StraightSize {
  readonly lengthMm: number;
  readonly ids: readonly string[];
}

/** A pair of sizes that may stay joined, and the joints that are of it. */
export interface JointSize {
  readonly straight: number;
  readonly bend: number;
}

/** A bend with a straight on both sides, by their sizes. */
export interface PairSize {
  readonly bend: number;
  readonly straights: readonly [number, number];
}

export interface Sizes {
  readonly bends: readonly BendSize[];
  readonly straights: readonly StraightSize[];
  readonly joints: readonly JointSize[];
  /** Bends of which both joints may stay. */
  readonly pairs: readonly PairSize[];
}

/**
 * @param isApart true makes every piece a size of its own, for searches that go by pieces
 */
export function sizesOf({ bends, straights, joints }: TubeProblem, isApart: boolean): Sizes {
  const bendSizes = grouped(bends, (a, b) => !isApart && isSameSize(a.clrMm, b.clrMm) && same(a.angleDeg, b.angleDeg));
  const straightSizes = grouped(straights, (a, b) => !isApart && same(a.lengthMm, b.lengthMm));
  const sizes = {
    bends: bendSizes.map(({ first, ids }) => ({ clrMm: first.clrMm, angleDeg: first.angleDeg, ids })),
    straights: straightSizes.map(({ first, ids }) => ({ lengthMm: first.lengthMm, ids })),
  };
  const straightOf = ({ straightId }: CutJoint) => sizes.straights.findIndex(({ ids }) => ids.includes(straightId));
  const jointSizes: JointSize[] = [];
  for (const joint of joints) {
    const straight = straightOf(joint);
    const bend = sizes.bends.findIndex(({ ids }) => ids.includes(joint.bendId));
    if (!jointSizes.some((one) => one.straight === straight && one.bend === bend)) jointSizes.push({ straight, bend });
  }
  const pairs = sizes.bends.flatMap(({ ids }, bend) =>
    ids.flatMap((id): readonly PairSize[] => {
      const [first, other] = joints.filter(({ bendId }) => bendId === id);
      return first === undefined || other === undefined
        ? []
        : [{ bend, straights: [straightOf(first), straightOf(other)] }];
    }),
  );
  return { ...sizes, joints: jointSizes, pairs };
}

/** Only what differs by rounding is one size: a plan that mixes two sizes up would not cut what was asked. */
function same(a: number, b: number): boolean {
  return Math.abs(a - b) <= FIT;
}

function grouped<Piece extends { readonly id: string }>(
  pieces: readonly Piece[],
  isSame: (a: Piece, b: Piece) => boolean,
): readonly { readonly first: Piece; readonly ids: readonly string[] }[] {
  const groups: { first: Piece; ids: string[] }[] = [];
  for (const piece of pieces) {
    const group = groups.find(({ first }) => isSame(first, piece));
    if (group === undefined) groups.push({ first: piece, ids: [piece.id] });
    else group.ids.push(piece.id);
  }
  return groups;
}
