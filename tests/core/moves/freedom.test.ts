/** More freedom: a move is never lost by it, a larger shelf never makes the best one dearer, and other freedom hardly ever does. */

import { describe, expect, it } from 'vitest';
import { FREEDOMS, MORE_STOCK, tryFreedom } from './freedoms.ts';

const { EVENRUN_LONG } = process.env;
const HEADERS = EVENRUN_LONG === '1' ? 500 : 25;
const DEAREST_SHARE = 0.005;

/** Seeds of headers for which the best move was once lost or became dearer: a settling that stalled at the edge of the band, a straight taken out wherever that fitted, a move just on a limit. */
const MENDED: Readonly<Record<string, readonly number[]>> = {
  'a wider band': [184, 186, 299, 314, 464, 532, 540],
  'more slip': [38, 314, 416, 532, 552],
  'a shorter shortest straight': [186, 358, 482, 489, 491, 492],
  'a lock let go': [188, 234, 245, 270, 314, 327, 345, 364, 417, 436, 475, 546],
};

describe('more freedom', () => {
  it(
    `in the shelf never loses the best move, nor makes it dearer (${HEADERS} headers)`,
    () => {
      const { compared, lost, dearer } = tryFreedom(MORE_STOCK, HEADERS);
      expect({ lost, dearer }).toEqual({ lost: [], dearer: [] });
      expect(compared).toBe(HEADERS);
    },
    60 * 60_000,
  );

  it.each(FREEDOMS.map((freedom) => [freedom.name, freedom] as const))(
    `as %s never loses a move, and makes it dearer in at most ${100 * DEAREST_SHARE} % (${HEADERS} headers)`,
    (_, freedom) => {
      const { compared, lost, dearer } = tryFreedom(freedom, HEADERS);
      expect(lost).toEqual([]);
      expect(dearer.length, dearer.join('\n')).toBeLessThanOrEqual(DEAREST_SHARE * HEADERS);
      expect(compared).toBe(HEADERS);
    },
    60 * 60_000,
  );

  it.each(
    FREEDOMS.flatMap((freedom) => (MENDED[freedom.name] ?? []).map((seed) => [freedom.name, seed, freedom] as const)),
  )('as %s no longer costs anything for header %i', (_, seed, freedom) => {
    const { lost, dearer } = tryFreedom(freedom, 1, seed);
    expect({ lost, dearer }).toEqual({ lost: [], dearer: [] });
  });
});
