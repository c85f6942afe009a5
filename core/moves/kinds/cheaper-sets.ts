/** Whether anything cheaper works than the best found: as many changes together as stay below its price, from starts all round. */

import { settledValues } from '../offer/enter-move.ts';
import type { Variable } from '../problem/variable.ts';
import { LEAST_STEP } from '../ranking/cost.ts';
import type { Search } from '../search.ts';
import { isTurn, MOST_SCREWS } from '../turning/end-motion.ts';
import { drawn, drawnOf, inOrderOf } from './samples.ts';
import { thinOutDearest } from './thin-out.ts';

/** With fewer changes the searches in order of price miss hardly anything. */
const FEWEST = 3;
/** Parts of the samples with nothing taken out, and with at most one piece; the rest may take out whatever fits. */
const NONE_OUT = 0.45;
const ONE_OUT = 0.9;
/** Samples between two pauses. */
const SLICE = 16;
const STREW_TURN_RAD = 0.8;
const STREW_SLIDE_MM = 40;

/**
 * Draws sets to which nothing more can be added without reaching the price of the best move, so that whatever works is cheaper, and
 * settles each from a start of its own; bends are turned all round, since from how they lie only near answers are found. Ends
 * when so many samples in a row came to nothing. A heuristic: it may miss a move, never make a wrong one.
 */
export function* searchCheaper(
  search: Search,
  variables: readonly Variable[],
  samplesInVain: number,
): Generator<void, void> {
  const { best } = search;
  let sample = 0;
  for (let vain = 0; vain < samplesInVain; vain += 1) {
    sample += 1;
    if (vain % SLICE === 0) yield;
    const before = best.leastKey();
    const together = drawnBelow(search, variables, sample);
    if (together.length < FEWEST) continue;
    const start = together.map((one) => one.start - one.present + strewn(one, sample));
    const values = settledValues(search, together, start);
    if (values !== null) yield* thinOutDearest(search, { variables: together, values });
    if (best.leastKey() < before) vain = -1;
  }
}

/**
 * One variable after another in the sample's order, each that keeps the key below that of the best; in order along the tube. A piece taken
 * out costs nothing more or even saves a joint, so it would fit into nearly every set, and shifts the end whether that helps or
 * not: most samples do without.
 */
function drawnBelow({ tally, best }: Search, variables: readonly Variable[], sample: number): Variable[] {
  const most = Math.min(best.keyLimit(), best.leastKey() - LEAST_STEP);
  let mayGo = mostOut(sample);
  const together: Variable[] = [];
  for (const one of inOrderOf(sample, variables)) {
    if (together.length === MOST_SCREWS) break;
    if (together.some(({ slot }) => slot === one.slot) || (one.isFixed && mayGo === 0)) continue;
    tally.push(one);
    if (tally.key > most) {
      tally.pop(one);
      continue;
    }
    together.push(one);
    if (one.isFixed) mayGo -= 1;
  }
  for (const one of [...together].reverse()) tally.pop(one);
  return together.sort((a, b) => a.screw.order - b.screw.order);
}

function mostOut(sample: number): number {
  const share = drawnOf(sample, 0);
  if (share < NONE_OUT) return 0;
  return share < ONE_OUT ? 1 : MOST_SCREWS;
}

function strewn(variable: Variable, sample: number): number {
  const { kind, isFixed, screw } = variable;
  if (isFixed) return 0;
  const by = 2 * drawn(sample, variable, 'value') - 1;
  if (!isTurn(screw)) return by * STREW_SLIDE_MM;
  const isAllRound = sample % 2 === 1;
  return by * (isAllRound && kind === 'clocking' ? Math.PI : STREW_TURN_RAD);
}
