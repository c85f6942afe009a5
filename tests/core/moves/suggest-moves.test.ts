import { describe, expect, it } from 'vitest';
import { suggestMoves } from '../../../core/moves/suggest-moves.ts';
import { describeMove } from '../../../core/moves/words/describe-move.ts';
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
      let asked = 0;
      const reasons = new Map<string, number>();
      const faults: string[] = [];
      for (let run = 0; asked < HEADERS; run += 1) {
        const { header, primaryId, options } = randomCase(seededRandom(run * SEED));
        const outcome = suggestMoves(header, primaryId, options);
        const found = outcome.kind === 'found' ? outcome.moves : [];
        if (outcome.kind === 'none' && outcome.reason.kind === 'nothingToDo') continue;
        asked += 1;
        if (outcome.kind === 'none') reasons.set(outcome.reason.kind, (reasons.get(outcome.reason.kind) ?? 0) + 1);
        moves += found.length;
        for (const move of found) {
          expect(describeMove(move, header)).not.toMatch(/undefined|NaN|null/);
          faults.push(...faultsOf(header, move, options).map((fault) => `run ${run}, ${move.kind}: ${fault}`));
        }
      }
      expect(faults).toEqual([]);
      expect(moves).toBeGreaterThan(HEADERS / 2);
      const without = [...reasons.values()].reduce((sum, count) => sum + count, 0);
      const told = JSON.stringify([...reasons]);
      expect(without, told).toBeLessThan(0.75 * HEADERS);
      // A search that is run to its end never says that it was not.
      expect(reasons.has('notThrough'), told).toBe(false);
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
    let several = 0;
    for (let seed = 1; seed <= 20; seed += 1) {
      const primary = shopPrimary({ pieces: 9, random: seededRandom(seed) });
      const header = fittedHeader(primary, { targetMm: lengthOf(primary) + 9, slipMm: 6 });
      const outcome = suggestMoves(header, 'own');
      const joints = outcome.kind === 'found' ? outcome.moves.map(({ cost }) => cost.jointsMade) : [];
      if (joints.length > 1) several += 1;
      expect(joints).toEqual([...joints].sort((a, b) => a - b));
    }
    expect(several).toBeGreaterThan(15);
  });
});

describe('a fitted primary that was disturbed', () => {
  it('is mended at no higher cost than by undoing the disturbance', () => {
    const kinds = ['length', 'clocking', 'angle', 'clr'] as const;
    const missed: string[] = [];
    let tried = 0;
    let inBand = 0;
    for (let seed = 1; seed <= 60; seed += 1) {
      const random = seededRandom(seed * 104_729);
      const primary = shopPrimary({ pieces: 8, random });
      const disturbed = disturb(primary, 1 + (seed % 3), { random, kinds });
      const header = fittedHeader(disturbed.primary, { targetMm: lengthOf(primary), fitted: primary });
      const outcome = suggestMoves(header, 'own', { stock: FULL_SHELF });
      // A disturbance so small that the tube still fits is none.
      if (outcome.kind === 'none' && outcome.reason.kind === 'nothingToDo') {
        inBand += 1;
        continue;
      }
      tried += 1;
      const [first] = outcome.kind === 'found' ? outcome.moves : [];
      const isAsCheap =
        first !== undefined &&
        (first.cost.jointsMade - disturbed.undo.joints || first.cost.newCuts - disturbed.undo.cuts) <= 0;
      if (!isAsCheap) missed.push(`seed ${seed}: ${disturbed.kinds.join(' + ')}`);
    }
    expect(missed).toEqual([]);
    expect(tried + inBand).toBe(60);
    expect(inBand).toBeLessThan(6);
  });
});
