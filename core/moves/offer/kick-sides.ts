/** The sides that a kick may go to. */

import { wrapDeg } from '../../path/vector.ts';
import type { MoveChange } from '../move.ts';

type Kick = Extract<MoveChange, { readonly kind: 'kick' }>;

/** From the plane of the bend before it. */
const SIDES_DEG = [0, 90, 180, -90];

/** The same kick, first clocked 0, to each side. */
export function kickSides(kick: Kick): readonly Kick[] {
  const nextDeg = kick.nextClockingDeg === null ? null : kick.nextClockingDeg + kick.clockingDeg;
  return SIDES_DEG.map((clockingDeg) => ({
    ...kick,
    clockingDeg,
    nextClockingDeg: nextDeg === null ? null : wrapDeg(nextDeg - clockingDeg),
  }));
}
