/** What keys and pointers make of a clocking dial. */

import { degreesOf, roundedTo, wrapDeg } from '../../../core/index.ts';

const KEY_STEPS: ReadonlyMap<string, number> = new Map([
  ['ArrowRight', 1],
  ['ArrowUp', 1],
  ['ArrowLeft', -1],
  ['ArrowDown', -1],
  ['PageUp', 15],
  ['PageDown', -15],
]);

/** The clocking after a key, within (-180, 180]; null for keys that mean nothing here. Shift makes a step ten times finer. */
export function clockingAfterKey(clockingDeg: number, key: string, isFine: boolean): number | null {
  if (key === 'Home') return 0;
  if (key === 'End') return 180;
  const step = KEY_STEPS.get(key);
  if (step === undefined) return null;
  return roundedTo(wrapDeg(clockingDeg + (isFine ? step / 10 : step)), 2);
}

/** The clocking that a place on the dial stands for, in whole degrees: 0 at the top, clockwise positive, from the middle. */
export function clockingAtPlace(right: number, down: number): number {
  return Math.round(wrapDeg(degreesOf(Math.atan2(right, -down)))) + 0;
}
