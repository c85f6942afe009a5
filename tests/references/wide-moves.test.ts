/** Closed headers that are off their length, against a search apart from the program's own. */

import { describe, expect, it } from 'vitest';
import type { Header } from '../../core/header/header.ts';
import { exactMoves } from '../core/moves/exact-moves.ts';
import { fittedHeader, lengthOf, pick, shopPrimary } from '../core/moves/made-headers.ts';
import { seededRandom } from '../core/path/made-primaries.ts';
import { wideMove } from './wide-moves.ts';

const { EVENRUN_LONG } = process.env;
const isLong = EVENRUN_LONG === '1';
const HEADERS = isLong ? 320 : 4;
const MOST_PIECES = isLong ? 14 : 9;

const STATES = [['tacked'], ['tacked', 'tacked', 'planned'], ['tacked', 'tacked', 'cut', 'welded']] as const;

/** Closed, and a quarter of an inch to two inches off its length; some pieces planned, welded or locked. */
function closedHeader(seed: number): Header {
  const random = seededRandom(seed * 15_485_863);
  const states = pick(random, STATES);
  const pieces = 6 + Math.floor(random() * (MOST_PIECES - 5));
  const primary = shopPrimary({ pieces, random, states, lockedPart: pick(random, [0, 0.1, 0.3]) });
  const offMm = (random() < 0.5 ? -1 : 1) * (6.35 + random() * (50.8 - 6.35));
  return fittedHeader(primary, { targetMm: lengthOf(primary) + offMm, slipMm: pick(random, [0, 0, 3, 6]) });
}

describe('closed headers that are off by a quarter of an inch to two inches', () => {
  it(
    `get a move where another search finds one, and mostly no dearer (${HEADERS} headers)`,
    () => {
      const lost: string[] = [];
      const dearer: string[] = [];
      let solvable = 0;
      for (let seed = 1; seed <= HEADERS; seed += 1) {
        const header = closedHeader(seed);
        const wide = wideMove(header);
        if (wide === null) continue;
        solvable += 1;
        const outcome = exactMoves(header, 'own', {});
        const [move] = outcome.kind === 'found' ? outcome.moves : [];
        if (move === undefined) lost.push(`seed ${seed}: ${JSON.stringify(wide)}`);
        else if ((move.cost.bendsAdded || move.cost.jointsMade - wide.joints || move.cost.newCuts - wide.cuts) > 0) {
          dearer.push(`seed ${seed}: ${JSON.stringify(move.cost)} against ${JSON.stringify(wide)}`);
        }
      }
      expect(solvable).toBeGreaterThanOrEqual(HEADERS / 2);
      expect(lost.length, lost.join('\n')).toBeLessThanOrEqual(0.02 * solvable);
      expect(dearer.length, dearer.join('\n')).toBeLessThanOrEqual(0.02 * solvable);
    },
    4 * 60 * 60_000,
  );
});
