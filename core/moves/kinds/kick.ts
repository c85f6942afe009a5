/** Kicks: a straight that goes out and back in three bends and so gets longer, without moving anything else. */

import { degreesOf, radiansOf } from '../../units/angle.ts';
import { type Length, MM_PER_INCH, mmOf } from '../../units/length.ts';
import { unitOf } from '../../units/length-style.ts';
import type { MoveChange } from '../move.ts';
import { type NewBend, newBends, nextClocking } from '../problem/new-bends.ts';
import type { Variable } from '../problem/variable.ts';
import { bendNeed } from '../ranking/stock-needs.ts';
import { keyOf, type Search } from '../search.ts';

type Kick = Extract<MoveChange, { readonly kind: 'kick' }>;

const LARGEST_KICK_DEG = 60;

/**
 * A kick with bends of `a`, `2a` and `a` is `4 r sin a` long on the straight and `4 r a` along the tube, so it gains
 * `4 r (a - sin a)`; what the straight has left over stays before and after it. Only where the ends are closed already, since a
 * kick moves neither. Which side it goes to is settled by `offer/kick-sides.ts` once it is known to be among the best.
 */
export function* searchKicks(search: Search, straights: readonly Variable[]): Generator<void, void> {
  const { problem } = search;
  if (!problem.standing.isClosed) return;
  for (const straight of straights) {
    const next = nextClocking(problem, straight.pieceIndex);
    if (straight.kind !== 'length' || straight.present === 0 || next === false) continue;
    const nextClockingDeg = next === null ? null : next.presentDeg;
    for (const bend of newBends(problem)) {
      yield;
      for (const kick of kicksIn(search, straight, bend)) take(search, straight, { ...kick, nextClockingDeg });
    }
  }
}

/** Leftover at the far side, in the middle, at the near side; those that can be cut. */
function kicksIn({ problem, aim }: Search, straight: Variable, { clr, largestDeg }: NewBend): readonly Kick[] {
  const piece = problem.pieces[straight.pieceIndex];
  if (piece?.kind !== 'straight') return [];
  const clrMm = mmOf(clr);
  const kicks: Kick[] = [];
  for (const split of [0, 0.5, 1]) {
    const newWelds = split === 0.5 ? 4 : 3;
    const gainMm = aim.window.aimMm - aim.window.presentMm + problem.shrinkageMm * newWelds;
    const angleDeg = kickAngleDeg(gainMm, clrMm);
    if (angleDeg === null || angleDeg > LARGEST_KICK_DEG || 2 * angleDeg > largestDeg) continue;
    const leftMm = straight.present - 4 * clrMm * Math.sin(radiansOf(angleDeg));
    const before = cutLength(leftMm * split, problem.header.settings.display);
    const after = cutLength(leftMm - mmOf(before), problem.header.settings.display);
    const isWorkable = [before, after].every((left) => left.value === 0 || mmOf(left) >= problem.shortestMm);
    if (leftMm < -0.1 || !isWorkable) continue;
    const common = { kind: 'kick', pieceIndex: straight.pieceIndex, from: piece.length, clr } as const;
    kicks.push({ ...common, before, after, angleDeg, clockingDeg: 0, nextClockingDeg: null });
  }
  return kicks;
}

/** Angle to half a degree whose kick gains so much; null when nothing is to gain. */
function kickAngleDeg(gainMm: number, clrMm: number): number | null {
  if (!(gainMm > 0)) return null;
  let low = 0;
  let high = Math.PI / 2;
  for (let round = 0; round < 40; round += 1) {
    const middle = (low + high) / 2;
    if (4 * clrMm * (middle - Math.sin(middle)) < gainMm) low = middle;
    else high = middle;
  }
  return Math.round(degreesOf(high) * 2) / 2;
}

/** To 1/64 in or a quarter of a millimetre: the finest a saw does, for the ends depend on it. */
function cutLength(mm: number, style: Parameters<typeof unitOf>[0]): Length {
  const unit = unitOf(style);
  const per = unit === 'in' ? 64 : 4;
  return { value: Math.max(0, Math.round((unit === 'in' ? mm / MM_PER_INCH : mm) * per) / per), unit };
}

function take(search: Search, straight: Variable, kick: Kick): void {
  const { problem, aim, best } = search;
  const { stock, tube } = problem;
  const { clr, angleDeg } = kick;
  const arcMm = 4 * mmOf(clr) * radiansOf(angleDeg);
  const leftMm = mmOf(kick.before) + mmOf(kick.after);
  const left = [kick.before, kick.after].filter(({ value }) => value > 0).length;
  const alongMm = leftMm + 4 * mmOf(clr) * Math.sin(radiansOf(angleDeg)) - straight.present;
  const lengthMm = aim.window.presentMm - straight.present + leftMm + arcMm - problem.shrinkageMm * (2 + left);
  const { lowMm, highMm } = aim.window;
  if (Math.abs(alongMm) > aim.ends.limits.gapMm || lengthMm < lowMm || lengthMm > highMm) return;
  // Three bends and what is left of the straight, in place of one piece.
  const demand = { kind: 'piece', pieceIndex: straight.pieceIndex, more: 2 + left } as const;
  best.take({
    kind: 'kick',
    changes: [kick],
    demands: [demand],
    slots: [straight.slot],
    key: keyOf(search, [{ demand, isHeld: straight.isHeld, cuts: 3 + left, adjusted: 0, bends: 3 }]),
    tubeAddedMm: arcMm,
    needs:
      stock === null
        ? []
        : [angleDeg, 2 * angleDeg, angleDeg].map((deg) => bendNeed(stock, tube, { clr, angleDeg: deg })),
    offMm: Math.abs(lengthMm - aim.window.aimMm),
  });
}
