/** More freedom: a move is never lost by it, a larger shelf never makes the best one dearer, and other freedom hardly ever does. */

import { describe, expect, it } from 'vitest';
import { FREEDOMS, MORE_STOCK, tryFreedom } from './freedoms.ts';

const { EVENRUN_LONG } = process.env;
const HEADERS = EVENRUN_LONG === '1' ? 500 : 25;
const DEAREST_SHARE = 0.005;

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
});
