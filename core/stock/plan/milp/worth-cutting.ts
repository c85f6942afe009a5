/** Ways to fill straight stock that are worth a given price: what a search by prices (column generation) asks of each stock row. */

import { FIT } from '../cut-problem.ts';
import { bestByTable } from './best-by-table.ts';
import type { Item, Worth } from './knapsack.ts';

export interface Looked {
  readonly ways: readonly Worth[];
  /** Whether no way was passed over for want of time or room. */
  readonly isComplete: boolean;
}

/** Ways that were best for a while come along: they save a search by prices many of its rounds. */
const RUNNERS_UP = 8;
/** How many choices are looked at before a search gives up: for the best, of which there may be a surer way, and for all. */
const MOST_CHOICES = { best: 50_000, all: 3_000_000 } as const;

/**
 * All ways worth more than `above`, or only the best of them with some that are nearly so; by depth-first search, leaving what cannot be worth enough:
 * the items are taken in order of worth for what they take, so filling the room with the next one, in parts, is a bound.
 */
export function waysWorth(
  items: readonly Item[],
  { roomMm, above, limit }: { readonly roomMm: number; readonly above: number; readonly limit: number | 'best' },
): Looked {
  const order = inOrderOfWorth(items, roomMm, limit);
  const ways: Worth[] = [];
  const chosen: number[] = [];
  let least = above;
  let choices = 0;
  const mostChoices = limit === 'best' ? MOST_CHOICES.best : MOST_CHOICES.all;
  const isTooMuch = () => choices > mostChoices || (limit !== 'best' && ways.length >= limit);
  const keep = (worth: number): void => {
    if (worth <= least) return;
    ways.push({ straights: [...chosen], worth });
    if (limit !== 'best') return;
    least = worth;
    if (ways.length > RUNNERS_UP) ways.shift();
  };
  const extend = (from: number, leftMm: number, worth: number): void => {
    for (let at = from; at < order.length; at += 1) {
      const item = order[at];
      if (item === undefined || worth + Math.max(0, (leftMm * item.worth) / item.takesMm) <= least) return;
      choices += 1;
      if (isTooMuch()) return;
      const fitting = Math.min(item.count, Math.floor((leftMm + FIT) / item.takesMm));
      for (let count = 1; count <= fitting; count += 1) chosen.push(item.size);
      for (let count = fitting; count > 0; count -= 1) {
        keep(worth + count * item.worth);
        extend(at + 1, leftMm - count * item.takesMm, worth + count * item.worth);
        chosen.pop();
      }
    }
  };
  extend(0, roomMm, 0);
  return { ways, isComplete: !isTooMuch() };
}

/** The way worth most for certain: by choices, or by a table where there are too many of them and lengths have a common measure. */
export function bestForSure(
  items: readonly Item[],
  { roomMm, above }: { readonly roomMm: number; readonly above: number },
): Looked {
  const looked = waysWorth(items, { roomMm, above, limit: 'best' });
  const sure = looked.isComplete ? null : bestByTable(items, roomMm);
  return sure === null ? looked : { ways: sure.worth > above ? [...looked.ways, sure] : [], isComplete: true };
}

function inOrderOfWorth(items: readonly Item[], roomMm: number, limit: number | 'best'): readonly Item[] {
  return items
    .filter(({ worth, takesMm, count }) => count > 0 && takesMm <= roomMm + FIT && (worth > 0 || limit !== 'best'))
    .toSorted((a, b) => b.worth / b.takesMm - a.worth / a.takesMm);
}
