import { describe, expect, it } from 'vitest';
import { describeMove } from '../../../core/moves/words/describe-move.ts';
import { suggestMoves } from '../../../core/moves/suggest-moves.ts';
import { seededRandom } from '../path/made-primaries.ts';
import { faultsOf } from './check-move.ts';
import { disturb, FULL_SHELF } from './disturb.ts';
import { fittedHeader, lengthOf, shopPrimary } from './made-headers.ts';
import { randomCase } from './random-headers.ts';

const { EVENRUN_LONG } = process.env;
const HEADERS = EVENRUN_LONG === '1' ? 10_000 : 300;
const SEED = 2_654_435_761;

describe('moves on random headers', () => {
  it(
    `are right whenever they are offered (${HEADERS} headers)`,
    () => {
      let moves = 0;
      const faults: string[] = [];
      for (let run = 0; run < HEADERS; run += 1) {
        const { header, primaryId, options } = randomCase(seededRandom(run * SEED));
        const outcome = suggestMoves(header, primaryId, options);
        if (outcome.kind !== 'found') {
          expect(outcome.kind).toBe('none');
          continue;
        }
        moves += outcome.moves.length;
        for (const move of outcome.moves) {
          expect(describeMove(move, header)).not.toMatch(/undefined|NaN|null/);
          faults.push(...faultsOf(header, move, options).map((fault) => `run ${run}, ${move.kind}: ${fault}`));
        }
      }
      expect(faults).toEqual([]);
      expect(moves).toBeGreaterThan(HEADERS / 2);
    },
    60 * 60_000,
  );

  it('are the same when asked again', () => {
    for (let run = 0; run < 20; run += 1) {
      const { header, primaryId, options } = randomCase(seededRandom(run * SEED));
      expect(suggestMoves(header, primaryId, options)).toEqual(suggestMoves(header, primaryId, options));
    }
  });

  it('come cheapest first', () => {
    for (let seed = 1; seed <= 10; seed += 1) {
      const primary = shopPrimary({ pieces: 9, random: seededRandom(seed) });
      const header = fittedHeader(primary, { targetMm: lengthOf(primary) + 9, slipMm: 6 });
      const outcome = suggestMoves(header, 'own');
      if (outcome.kind !== 'found') continue;
      const joints = outcome.moves.map(({ cost }) => cost.jointsBroken.length);
      expect(joints).toEqual([...joints].sort((a, b) => a - b));
    }
  });
});

describe('a fitted primary that was disturbed', () => {
  it('is mended at no higher cost than by undoing the disturbance', () => {
    const kinds = ['length', 'clocking', 'angle', 'clr'] as const;
    const missed: string[] = [];
    let tried = 0;
    for (let seed = 1; seed <= 60; seed += 1) {
      const random = seededRandom(seed * 104_729);
      const primary = shopPrimary({ pieces: 8, random });
      const disturbed = disturb(primary, 1 + (seed % 3), { random, kinds });
      const header = fittedHeader(disturbed.primary, { targetMm: lengthOf(primary), fitted: primary });
      const outcome = suggestMoves(header, 'own', { stock: FULL_SHELF });
      if (outcome.kind === 'none' && outcome.reason.kind === 'nothingToDo') continue;
      tried += 1;
      const [first] = outcome.kind === 'found' ? outcome.moves : [];
      const isAsCheap =
        first !== undefined &&
        (first.cost.jointsBroken.length - disturbed.undo.joints || first.cost.newCuts - disturbed.undo.cuts) <= 0;
      if (!isAsCheap) missed.push(`seed ${seed}: ${disturbed.kinds.join(' + ')}`);
    }
    expect(missed.length / tried, missed.join('; ')).toBeLessThanOrEqual(0.02);
    expect(tried).toBeGreaterThan(50);
  });
});
