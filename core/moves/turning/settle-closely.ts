/** Brings inside all tolerances what least squares leaves a little outside one of them. */

import type { Screw } from './end-motion.ts';
import { type Aim, isMet, type Miss, missAt } from './miss.ts';
import { type Settled, settle, type ValueLimits } from './settle.ts';

const MOST_ROUNDS = 4;
/** What is outside is moved inside by so many times as much, and by twice that each further round, or it would only ever come nearer. */
const PRESS = 1.5;
/** A little more than 2, since the search for the least squares may end a little early. */
const MOST_SQUARES = 2.1;

/**
 * As `settle`, with a miss by the aim. Least squares shares a miss out among gap, tilt and band, so that one may end outside while
 * another has room. Where values exist that meet the aim, gap and tilt there are at most 1 in units of their tolerances and
 * nothing is outside the band, so the least sum of squares is at most 2. Only then is it worth it to look on: with what is
 * outside weighing more, and the edge of the band moved in.
 */
export function settleClosely(
  aim: Aim,
  screws: readonly Screw[],
  start: ArrayLike<number>,
  limits: ValueLimits,
): Settled {
  let { values, miss } = settle(aim, screws, start, limits);
  let pressed = aim;
  for (let round = 0; round < MOST_ROUNDS && !isMet(miss, aim) && squares(miss, aim) <= MOST_SQUARES; round += 1) {
    pressed = pressedBy(pressed, aim, { ...miss, press: PRESS * 2 ** round });
    ({ values } = settle(pressed, screws, values, limits));
    miss = missAt(aim, screws, values);
  }
  return { values, miss };
}

function squares({ gapMm, tiltDeg, outsideMm }: Miss, { ends: { limits } }: Aim): number {
  return (gapMm ** 2 + outsideMm ** 2) / limits.gapMm ** 2 + (tiltDeg / limits.tiltDeg) ** 2;
}

function pressedBy(
  pressed: Aim,
  { ends: { limits }, window }: Aim,
  { gapMm, tiltDeg, lengthMm, outsideMm, press }: Miss & { readonly press: number },
): Aim {
  const by = (share: number) => (share > 1 ? share * press : 1);
  const moveMm = press * outsideMm;
  const isOver = outsideMm > 0 && lengthMm > window.highMm;
  const isUnder = outsideMm > 0 && !isOver;
  const { lowMm, highMm } = pressed.window;
  const heldLimits = {
    ...pressed.ends.limits,
    gapMm: pressed.ends.limits.gapMm / by(gapMm / limits.gapMm),
    tiltDeg: pressed.ends.limits.tiltDeg / by(tiltDeg / limits.tiltDeg),
  };
  return {
    ...pressed,
    ends: { ...pressed.ends, limits: heldLimits },
    window: {
      ...pressed.window,
      lowMm: isUnder ? Math.min(highMm, lowMm + moveMm) : lowMm,
      highMm: isOver ? Math.max(lowMm, highMm - moveMm) : highMm,
    },
  };
}
