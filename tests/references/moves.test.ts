/** Moves against the outside world: cases worked by hand, a mixed-integer solver, and brute force with another least squares solver. */

import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import type { Piece, Primary } from '../../core/header/header.ts';
import type { Move } from '../../core/moves/move.ts';
import { millimetres, mmOf } from '../../core/units/length.ts';
import { disturb } from '../core/moves/disturb.ts';
import { exactMoves } from '../core/moves/exact-moves.ts';
import { fittedHeader, lengthOf, pick, shopPrimary } from '../core/moves/made-headers.ts';
import { ALONG_X, bend, primaryOf, seededRandom, straight } from '../core/path/made-primaries.ts';
import { expectWithin } from '../tolerance.ts';
import { bruteForceMove } from './brute-force-moves.ts';
import { type ModelWeights, type StraightsModel, straightsModel } from './straights-model.ts';

const { EVENRUN_LONG } = process.env;
const isLong = EVENRUN_LONG === '1';

interface Highs {
  readonly solve: (text: string) => {
    readonly Status: string;
    readonly ObjectiveValue: number;
    readonly Columns: Readonly<Record<string, { readonly Primal: number }>>;
  };
}

const highs: Highs = await createRequire(import.meta.url)('highs')();

function own(pieces: readonly Piece[]): Primary {
  return primaryOf(pieces, { id: 'own', port: ALONG_X });
}

function gains(move: Move): ReadonlyMap<number, number> {
  return new Map(
    move.changes.flatMap((change) =>
      change.kind === 'length' ? [[change.pieceIndex, mmOf(change.to) - mmOf(change.from)] as const] : [],
    ),
  );
}

/** Closed to a hundredth of a millimetre, so that tolerance makes nothing possible that geometry does not. */
function movesFor(primary: Primary, gainMm: number) {
  const tight = millimetres(0.01);
  const header = fittedHeader(primary, {
    targetMm: lengthOf(primary) + gainMm,
    settings: { tolerance: { minus: tight, plus: tight }, closure: { gap: tight, tiltDeg: 0.25 } },
  });
  return exactMoves(header, 'own', { kinds: ['straights'] });
}

/** Each case computed by hand from the directions of the straights, and checked by tracing. */
describe('straights between fixed ends, worked by hand', () => {
  it('lengthens a U (two 90s the same way) by half at each leg', () => {
    const outcome = movesFor(own([straight(60), bend(76, 90, 0), straight(40), bend(76, 90, 0), straight(60)]), 10);
    if (outcome.kind !== 'found') throw new Error(outcome.kind);
    const byPiece = gains(outcome.moves[0] as Move);
    expect([...byPiece.keys()]).toEqual([0, 4]);
    expectWithin(byPiece.get(0) ?? 0, 5, 0.02);
    expectWithin(byPiece.get(4) ?? 0, 5, 0.02);
  });

  it('finds the one answer along three axes and back along their diagonal: k, k, k and root 3 k', () => {
    // x, then y, then z, then -(1,1,1)/root 3: turns of 90, 90 and 125.264 degrees, the last clocked -45.
    const last = (Math.acos(-1 / Math.sqrt(3)) * 180) / Math.PI;
    const pieces = [
      straight(80),
      bend(76, 90, -90),
      straight(80),
      bend(76, 90, 90),
      straight(80),
      bend(76, last, -45),
      straight(150),
    ];
    const outcome = movesFor(own(pieces), 3 + Math.sqrt(3));
    if (outcome.kind !== 'found') throw new Error(outcome.kind);
    const byPiece = gains(outcome.moves[0] as Move);
    for (const index of [0, 2, 4]) expectWithin(byPiece.get(index) ?? 0, 1, 0.05);
    expectWithin(byPiece.get(6) ?? 0, Math.sqrt(3), 0.05);
  });

  it('offers nothing where the answer would take two metres', () => {
    const pieces = [
      straight(60),
      bend(76.2, 75, 0),
      straight(45),
      bend(76.2, 60, 100),
      straight(45),
      bend(76.2, 80, 110),
      straight(60),
    ];
    const outcome = movesFor(own(pieces), 10);
    expect(outcome.kind).toBe('none');
  });

  it('offers nothing for a Z (two 90s, clocked 180): what one end gains the other loses', () => {
    const pieces = [straight(60), bend(76, 90, 0), straight(40), bend(76, 90, 180), straight(60)];
    const outcome = movesFor(own(pieces), 10);
    if (outcome.kind !== 'none') throw new Error(outcome.kind);
    expect(outcome.reason.kind).toBe('outOfReach');
  });
});

/** Tube counts by the whole millimetre. */
const TUBE_TOLERANCE_MM = 1.001;
const MODELS = isLong ? 500 : 45;

/** The usual ranking, in which being off the target has a price in tube, and tube alone. */
const RANKINGS = [
  ['tube with what is off the target', { gap: 10, offTarget: 4 }],
  ['tube', { gap: 0, offTarget: 0 }],
] as const;

describe('straights against a mixed-integer model solved by HiGHS', () => {
  it.each(RANKINGS)(
    `the first move is the optimum in joints, then cuts, then %s (${MODELS} problems)`,
    { timeout: 30 * 60_000 },
    (_name, prices) => {
      let compared = 0;
      const faults: string[] = [];
      for (let seed = 1; compared < MODELS; seed += 1) {
        const random = seededRandom(seed * 48_271);
        const states = ['cut', 'tacked', 'tacked', 'tacked', 'welded'] as const;
        const primary = shopPrimary({ pieces: 8 + Math.floor(random() * 8), random, states, lockedPart: 0.05 });
        const targetMm = lengthOf(primary) + Math.round((random() * 30 - 15) * 2) / 2;
        const header = fittedHeader(primary, { targetMm, slipMm: pick(random, [0, 3, 6, 6]) });
        const outcome = exactMoves(header, 'own', { kinds: ['straights'], maxMoves: 1 }, prices);
        if (outcome.kind === 'none' && outcome.reason.kind === 'nothingToDo') continue;
        compared += 1;
        const best = optimum(straightsModel(header, header.primaries[0] as Primary, prices));
        const [move] = outcome.kind === 'found' ? outcome.moves : [];
        const fault = faultAgainst(best, move, prices);
        if (fault !== null) faults.push(`seed ${seed}: ${fault}`);
      }
      expect(faults).toEqual([]);
    },
  );
});

interface Optimum {
  readonly joints: number;
  readonly cuts: number;
  readonly tubeMm: number;
}

function optimum(model: StraightsModel): Optimum | null {
  const joints = highs.solve(model.text('joints', {}));
  if (joints.Status !== 'Optimal') return null;
  const held = { joints: Math.round(joints.ObjectiveValue) };
  const cuts = Math.round(highs.solve(model.text('cuts', held)).ObjectiveValue);
  const tube = highs.solve(model.text('tube', { ...held, cuts }));
  return { joints: held.joints, cuts, tubeMm: model.tubeOf((name) => tube.Columns[name]?.Primal ?? 0) };
}

/**
 * Tube, with what being off the target counts as in it, is compared to the whole millimetre that it counts by. Where gap
 * has a price too the model may buy less of it with more tube, so that tube can only be asked to be no more.
 */
function faultAgainst(best: Optimum | null, move: Move | undefined, { gap, offTarget }: ModelWeights): string | null {
  if (best === null) return move === undefined ? null : 'a move where the model has none';
  if (move === undefined) return `no move where the model has ${JSON.stringify(best)}`;
  const tubeMm = move.cost.tubeAddedMm + offTarget * Math.abs(move.deviationMm);
  const joints = move.cost.jointsMade;
  const moreMm = tubeMm - best.tubeMm;
  const isTubeRight = moreMm <= TUBE_TOLERANCE_MM && (gap > 0 || moreMm >= -TUBE_TOLERANCE_MM);
  const isSame = joints === best.joints && move.cost.newCuts === best.cuts && isTubeRight;
  return isSame ? null : `${joints}, ${move.cost.newCuts}, ${tubeMm} against ${JSON.stringify(best)}`;
}

const SMALL = isLong ? 200 : 8;

describe('other kinds against brute force', () => {
  it(
    `are never dearer than the best of a grid refined by Levenberg and Marquardt (${SMALL} problems)`,
    () => {
      let compared = 0;
      const faults: string[] = [];
      for (let seed = 1; compared < SMALL; seed += 1) {
        const random = seededRandom(seed * 69_621);
        const primary = shopPrimary({ pieces: 5, random });
        const disturbed = disturb(primary, 1 + (seed % 2), { random, kinds: ['length', 'clocking', 'angle'] });
        const header = fittedHeader(disturbed.primary, { targetMm: lengthOf(primary), fitted: primary, slipMm: 3 });
        const outcome = exactMoves(header, 'own', {});
        if (outcome.kind === 'none' && outcome.reason.kind === 'nothingToDo') continue;
        const brute = bruteForceMove(header, 'own');
        if (brute === null) continue;
        compared += 1;
        const [move] = outcome.kind === 'found' ? outcome.moves : [];
        const isDearer =
          move === undefined || (move.cost.jointsMade - brute.joints || move.cost.newCuts - brute.cuts) > 0;
        if (isDearer) faults.push(`seed ${seed}: ${JSON.stringify(move?.cost)} against ${JSON.stringify(brute)}`);
      }
      expect(faults).toEqual([]);
    },
    60 * 60_000,
  );
});
