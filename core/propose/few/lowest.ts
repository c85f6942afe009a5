/** The least of a function of one number where it has room, which a second figure says. */

import { rootsOf } from './roots.ts';

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
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/** How closely a lowest place is looked for. */
export interface Closeness {
  /** Places looked at first, evenly. */
  readonly cells: number;
  /** Golden sections about the lowest of them: thirty leave a millionth of the two cells about it. */
  readonly sections: number;
}

/**
 * The lowest place between 0 and 1 among those with room; where none has room, the one that lacks the least of it. Null: `look` is null
 * wherever it was asked, which means not defined there.
 *
 * Looked at evenly, at the edges of where it is defined, and where the room begins or ends, which is where the least mostly lies. About the lowest of these it is
 * closed in on. A stretch with room that is narrower than a cell is found when the room rises towards it from both sides.
 */
export function lowestWhere(look: (at: number) => Place | null, { cells, sections }: Closeness): LowestPlace | null {
  const places: LowestPlace[] = [];
  const roomAt = (at: number) => {
    const place = look(at);
    if (place === null) return Number.NaN;
    places.push({ at, value: place.value, room: place.room });
    return place.room;
  };
  // Only for the places that it looks at: evenly, at edges, and ever closer to where the room begins or ends.
  rootsOf(roomAt, cells);
  let best = places[0];
  for (const place of places) if (best === undefined || compare(place, best) < 0) best = place;
  if (best === undefined) return null;
  let [from, to] = [0, 1];
  for (const { at } of places) {
    if (at < best.at && at > from) from = at;
    if (at > best.at && at < to) to = at;
  }
  return closedIn(look, best, { from, to, sections });
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
  const placeAt = (at: number): LowestPlace => {
    const { value, room } = look(at) ?? { value: Number.POSITIVE_INFINITY, room: Number.NEGATIVE_INFINITY };
    return { at, value, room };
  };
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
