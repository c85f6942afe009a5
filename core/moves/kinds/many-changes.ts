/** Moves of many changes at once, looked for by sampling: the last resort before a primary is called out of reach. */

import { settledValues } from '../offer/enter-move.ts';
import type { Variable } from '../problem/variable.ts';
import type { Search } from '../search.ts';
import { isTurn } from '../turning/end-motion.ts';
import { drawn, drawnOf, inOrderOf } from './samples.ts';
import { type ChangeSet, thinOut } from './thin-out.ts';

/** So many in a row that come to nothing, and nothing is likely to come of more: of 120 primaries one more was found by twenty times as many. */
const BARREN = 250;
const FEWEST = 5;
const MOST = 9;
/** So many moves that were found this way are enough: what matters is that there is one, and that it is not the first best. */
const ENOUGH = 40;
/** How far starts are strewn about the tube as it lies, in the later samples. */
const STREW_TURN_RAD = 0.8;
const STREW_SLIDE_MM = 40;

/**
 * Sets of five to nine variables, drawn at random from a fixed seed, each settled by Gauss-Newton from a start near the tube as it
 * lies, first exactly there, later strewn about it. Six figures must come right, so such a set mostly has a whole family of
 * answers, and the one found is thinned out: whatever the move can do without is left out again, the dearest first.
 */
export function* searchManyChanges(
  search: Search,
  variables: readonly Variable[],
  samples: number,
): Generator<void, readonly ChangeSet[]> {
  const slots = new Set(variables.map(({ slot }) => slot)).size;
  const sets: ChangeSet[] = [];
  if (slots < 2) return sets;
  let found = 0;
  let barren = 0;
  for (let sample = 0; sample < samples && found < ENOUGH && barren < BARREN; sample += 1) {
    yield;
    const size = Math.min(slots, FEWEST + Math.floor(drawnOf(sample, 0) * (MOST - FEWEST + 1)));
    const together = drawnFrom(variables, size, sample);
    const strew = Math.min(1, (2 * sample) / samples);
    const start = together.map((one) => one.start - one.present + strewn(one, strew, sample));
    const values = settledValues(search, together, start);
    const thinned = values === null ? [] : yield* thinOut(search, { variables: together, values });
    sets.push(...thinned);
    const isFound = thinned.length > 0;
    if (isFound) found += 1;
    barren = isFound ? 0 : barren + 1;
  }
  return sets;
}

/** So many variables of different slots, in order along the tube. */
function drawnFrom(variables: readonly Variable[], size: number, sample: number): readonly Variable[] {
  const together: Variable[] = [];
  for (const one of inOrderOf(sample, variables)) {
    if (together.length === size) break;
    if (!together.some(({ slot }) => slot === one.slot)) together.push(one);
  }
  return together.sort((a, b) => a.screw.order - b.screw.order);
}

function strewn(variable: Variable, share: number, sample: number): number {
  const { isFixed, screw } = variable;
  if (isFixed) return 0;
  const by = (2 * drawn(sample, variable, 'value') - 1) * share;
  return by * (isTurn(screw) ? STREW_TURN_RAD : STREW_SLIDE_MM);
}
