/** The least of a function of one number where it has room, which a second figure says. */

import { definedRuns, rootsOf } from './roots.ts';

/** What a place comes to. Where `room` is below zero, the value does not count. */
export interface Place {
  readonly value: number;
  readonly room: number;
}

export interface LowestPlace extends Place {
  readonly at: number;
}

/** Room that counts as none: roots are found to about so much. */
const ROOM_SLACK = 1e-9;
/** 0.618 to this power is 1e-9. */
const SECTIONS = 44;
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * The lowest place between 0 and 1 among those with room; where none has room, the one that lacks the least of it. Null: `look` is null
 * wherever it was asked, which means not defined there.
 *
 * Looked at in `cells` places, at the edges of where it is defined, and where the room begins or ends, which is where the least mostly lies. About the lowest of these it is
 * closed in on by golden sections, as a rule to 1e-9 of the two cells about it. A stretch with room that is narrower than a cell is found when the room rises
 * towards it from both sides.
 */
export function lowestWhere(
  look: (at: number) => Place | null,
  cells: number,
  sections = SECTIONS,
): LowestPlace | null {
  const roomAt = (at: number) => look(at)?.room ?? Number.NaN;
  const sampled = definedRuns(roomAt, cells).flatMap((run) => run.map(({ at }) => at));
  const places = [...sampled, ...rootsOf(roomAt, cells)]
    .sort((a, b) => a - b)
    .flatMap((at): readonly LowestPlace[] => {
      const found = look(at);
      return found === null ? [] : [{ at, ...found }];
    });
  const best = places.toSorted(compare)[0];
  if (best === undefined) return null;
  const place = places.indexOf(best);
  return closedIn(look, best, { from: places[place - 1]?.at ?? 0, to: places[place + 1]?.at ?? 1, sections });
}

/** Those with room first, then the lower one; without room, the one that lacks less. */
function compare(a: Place, b: Place): number {
  const [hasA, hasB] = [a.room >= -ROOM_SLACK, b.room >= -ROOM_SLACK];
  if (hasA !== hasB) return hasA ? -1 : 1;
  return hasA ? a.value - b.value : b.room - a.room;
}

function closedIn(
  look: (at: number) => Place | null,
  start: LowestPlace,
  { from, to, sections }: { readonly from: number; readonly to: number; readonly sections: number },
): LowestPlace {
  const placeAt = (at: number): LowestPlace => ({
    at,
    ...(look(at) ?? { value: Number.POSITIVE_INFINITY, room: Number.NEGATIVE_INFINITY }),
  });
  let [low, high, best] = [from, to, start];
  let left = placeAt(high - GOLDEN * (high - low));
  let right = placeAt(low + GOLDEN * (high - low));
  for (let section = 0; section < sections; section += 1) {
    if (compare(left, right) < 0) {
      if (compare(left, best) < 0) best = left;
      [high, right] = [right.at, left];
      left = placeAt(high - GOLDEN * (high - low));
    } else {
      if (compare(right, best) < 0) best = right;
      [low, left] = [left.at, right];
      right = placeAt(low + GOLDEN * (high - low));
    }
  }
  return best;
}
