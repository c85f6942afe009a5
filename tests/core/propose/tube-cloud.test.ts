/** Whether two tubes come too near, told by points: nothing is lost by passing over points that lie far apart. */

import { expect, it } from 'vitest';
import { runThrough } from '../../../core/moves/search-in-slices.ts';
import { readHeaderProblem } from '../../../core/propose/whole/header-problem.ts';
import { isTooNear, type TubeCloud } from '../../../core/propose/whole/tube-cloud.ts';
import { TubePool } from '../../../core/propose/whole/tube-pool.ts';
import { seededRandom } from '../path/made-primaries.ts';
import { randomBank } from './made-banks.ts';
import { CLRS } from './made-poses.ts';

const PAIRS = 1500;
const GAP_MM = 7;
/** As much as points five millimetres apart may make of a distance, see `tube-cloud.ts`. */
const ERROR_MM = 0.4;

/** From each point of one tube to the nearest of the other, over all of them. */
function nearestOf(one: TubeCloud, other: TubeCloud): readonly number[] {
  const [a, b] = [one.fine().figures, other.fine().figures];
  return Array.from({ length: a.length / 3 }, (_, i) => {
    let least = Number.POSITIVE_INFINITY;
    for (let j = 0; j < b.length; j += 3) {
      least = Math.min(
        least,
        Math.hypot(
          (a[3 * i] ?? 0) - (b[j] ?? 0),
          (a[3 * i + 1] ?? 0) - (b[j + 1] ?? 0),
          (a[3 * i + 2] ?? 0) - (b[j + 2] ?? 0),
        ),
      );
    }
    return least;
  });
}

/** Near before the last stretch without a break that is near, which lies in the last four diameters. */
function isNearBefore(toOther: readonly number[], earliest: number): boolean {
  const nearMm = GAP_MM + 44.45;
  let first = toOther.length;
  while (first > earliest && (toOther[first - 1] ?? 0) < nearMm) first -= 1;
  return toOther.slice(0, Math.max(0, first - 2)).some((mm) => mm < nearMm + ERROR_MM);
}

function isTooNearByAll(one: TubeCloud, other: TubeCloud): boolean {
  const [toOther, toOne] = [nearestOf(one, other), nearestOf(other, one)];
  const atEndsMm = Math.min(toOther.at(-1) ?? 0, toOne.at(-1) ?? 0);
  if (Math.min(...toOther) < Math.min(44.45, atEndsMm) - ERROR_MM) return true;
  return isNearBefore(toOther, one.fine().before) || isNearBefore(toOne, other.fine().before);
}

it('tubes into one collector are told near or not as by all of their points', () => {
  const bank = randomBank(seededRandom(31));
  const problem = runThrough(readHeaderProblem(bank, { clrs: CLRS }));
  const pools = problem.placings.map((some) =>
    some.flatMap(({ collectorId, at }) => {
      const asked = at(484);
      return asked === null ? [] : runThrough(new TubePool(asked, collectorId, () => 1).of({ three: 0, four: 0 }));
    }),
  );
  const random = seededRandom(8);
  const drawn = (primary: number) => pools[primary]?.[Math.floor(random() * (pools[primary]?.length ?? 0))]?.cloud;
  const answers = { near: 0, apart: 0, nearToFew: 0 };
  for (let pair = 0; pair < PAIRS; pair += 1) {
    const first = Math.floor(random() * 4);
    const [one, other] = [drawn(first), drawn((first + 1 + Math.floor(random() * 3)) % 4)];
    if (one === undefined || other === undefined) throw new Error('an empty pool');
    const isNear = isTooNear(one, other, GAP_MM);
    const isNearByAll = isTooNearByAll(one, other);
    if (isNearByAll) expect(isNear, `pair ${pair}`).toBe(true);
    // Where the approach of one begins, points far apart alone may call a tube near.
    else if (isNear) answers.nearToFew += 1;
    answers[isNear ? 'near' : 'apart'] += 1;
  }
  expect(answers.nearToFew).toBeLessThan(PAIRS / 100);
  expect(Math.min(answers.near, answers.apart)).toBeGreaterThan(100);
});
