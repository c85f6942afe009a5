/** Whether anything cheaper works than the best found: as many changes together as stay below its price, from starts all round. */

import { settledValues } from '../offer/enter-move.ts';
import type { Variable } from '../problem/variable.ts';
import { LEAST_STEP } from '../ranking/cost.ts';
import type { Search } from '../search.ts';
import { isTurn, MOST_SCREWS } from '../turning/end-motion.ts';
import { fixedRandom } from './samples.ts';
import { thinOut } from './thin-out.ts';

/** With fewer changes the searches in order of price miss hardly anything. */
const FEWEST = 3;
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
  const random = fixedRandom();
  for (let vain = 0; vain < samplesInVain; vain += 1) {
    if (vain % SLICE === 0) yield;
    const before = best.leastKey();
    const drawn = drawnBelow(search, variables, random);
    if (drawn.length < FEWEST) continue;
    const isAllRound = vain % 2 === 1;
    const start = drawn.map((one) => one.start - one.present + strewn(one, isAllRound, random));
    const values = settledValues(search, drawn, start);
    if (values !== null) yield* thinOut(search, { variables: drawn, values });
    if (best.leastKey() < before) vain = -1;
  }
}

/** One variable after another in a random order, each that keeps the key below that of the best; in order along the tube. */
function drawnBelow({ tally, best }: Search, variables: readonly Variable[], random: () => number): Variable[] {
  const most = Math.min(best.keyLimit(), best.leastKey() - LEAST_STEP);
  const left = [...variables];
  const drawn: Variable[] = [];
  while (left.length > 0 && drawn.length < MOST_SCREWS) {
    const at = Math.floor(random() * left.length);
    const one = left[at] as Variable;
    left[at] = left.at(-1) as Variable;
    left.pop();
    if (drawn.some(({ slot }) => slot === one.slot)) continue;
    tally.push(one);
    if (tally.key <= most) drawn.push(one);
    else tally.pop(one);
  }
  for (const one of [...drawn].reverse()) tally.pop(one);
  return drawn.sort((a, b) => a.screw.order - b.screw.order);
}

function strewn({ kind, isFixed, screw }: Variable, isAllRound: boolean, random: () => number): number {
  if (isFixed) return 0;
  const by = 2 * random() - 1;
  if (!isTurn(screw)) return by * STREW_SLIDE_MM;
  return by * (isAllRound && kind === 'clocking' ? Math.PI : STREW_TURN_RAD);
}
