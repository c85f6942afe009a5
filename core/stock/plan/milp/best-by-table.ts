/** The way to fill straight stock that is worth most, by a table over its length: sure where a search by choices is not. */

import { FIT } from '../cut-problem.ts';
import type { Item, Worth } from './knapsack.ts';

/** Lengths are looked at in millionths of a millimetre, in which 1/64 in is a whole number. */
const FINE = 1e6;
/** Cells of the table over length; sizes without so coarse a common measure are left to the search. */
const MOST_CELLS = 250_000;

/**
 * Knapsack by dynamic programming (Gilmore and Gomory, Operations Research 11, 1963), one row of the table for each copy of
 * an item that fits.
 *
 * @returns null when the lengths have no common measure that is coarse enough
 */
export function bestByTable(items: readonly Item[], roomMm: number): Worth | null {
  const fitting = items.filter(({ worth, takesMm, count }) => worth > 0 && count > 0 && takesMm <= roomMm + FIT);
  const measure = fitting.reduce((common, { takesMm }) => commonDivisor(common, Math.round(takesMm * FINE)), 0);
  const cells = Math.floor((roomMm * FINE + 1) / measure);
  if (fitting.length === 0 || !(cells <= MOST_CELLS)) return fitting.length === 0 ? { straights: [], worth: 0 } : null;
  const copies = fitting.flatMap((item) => {
    const takes = Math.round((item.takesMm * FINE) / measure);
    return Array.from({ length: Math.min(item.count, Math.floor(cells / takes)) }, () => ({ ...item, takes }));
  });
  const best = new Float64Array(cells + 1);
  const taken = copies.map(({ takes, worth }) => {
    const isTaken = new Uint8Array(cells + 1);
    // From the far end down, so that a copy is taken once.
    for (let cell = cells; cell >= takes; cell -= 1) {
      const total = (best[cell - takes] ?? 0) + worth;
      if (total <= (best[cell] ?? 0)) continue;
      best[cell] = total;
      isTaken[cell] = 1;
    }
    return isTaken;
  });
  const straights: number[] = [];
  let cell = cells;
  for (let at = copies.length - 1; at >= 0; at -= 1) {
    const copy = copies[at];
    if (copy === undefined || taken[at]?.[cell] !== 1) continue;
    straights.push(copy.size);
    cell -= copy.takes;
  }
  return { straights, worth: best[cells] ?? 0 };
}

function commonDivisor(a: number, b: number): number {
  return b === 0 ? a : commonDivisor(b, a % b);
}
