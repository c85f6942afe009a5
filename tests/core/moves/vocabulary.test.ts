/** Bends taken out and let in, pies taken off, kicks ahead of what is welded: planted in random primaries, and undone by what is offered. */

import { describe, expect, it } from 'vitest';
import type { Bend, PieCutBend, Piece, Primary, Settings } from '../../../core/header/header.ts';
import type { Move } from '../../../core/moves/move.ts';
import type { MoveOptions } from '../../../core/moves/question.ts';
import { suggestMoves } from '../../../core/moves/suggest-moves.ts';
import { millimetres } from '../../../core/units/length.ts';
import { seededRandom } from '../path/made-primaries.ts';
import { faultsOf } from './check-move.ts';
import { FULL_SHELF } from './disturb.ts';
import { fittedHeader, lengthOf, pick, shopPrimary } from './made-headers.ts';

const { EVENRUN_LONG } = process.env;
const RUNS = EVENRUN_LONG === '1' ? 500 : 24;

interface Planted {
  readonly fitted: Primary;
  readonly built: Primary;
}

const isBend = (piece: Piece | undefined): piece is Bend | PieCutBend =>
  piece !== undefined && piece.kind !== 'straight';

const turned = (piece: Piece, byDeg: number): Piece =>
  isBend(piece) ? { ...piece, clockingDeg: (piece.clockingDeg ?? 0) + byDeg } : piece;

/** A small bend somewhere ahead of the last one; what follows lies as it did until the small one turns it. */
function bendTooMany(fitted: Primary, random: () => number): Planted {
  const { pieces } = fitted;
  const last = pieces.findLastIndex(isBend);
  const at = 1 + Math.floor(random() * last);
  const next = pieces.findIndex((piece, index) => index >= at && isBend(piece));
  const clockingDeg = Math.floor(random() * 360) - 180;
  const more: Bend = {
    kind: 'bend',
    id: 'more',
    state: 'tacked',
    locked: false,
    note: '',
    clr: millimetres(76),
    angleDeg: 8 + Math.floor(random() * 30),
    clockingDeg,
  };
  const behind = pieces.map((piece, index) => (index === next ? turned(piece, -clockingDeg) : piece));
  return { fitted, built: { ...fitted, pieces: behind.toSpliced(at, 0, more) } };
}

/** One bend gone, and the next one clocked anyhow. */
function bendTooFew(fitted: Primary, random: () => number): Planted {
  const { pieces } = fitted;
  const bends = pieces.flatMap((piece, index) => (isBend(piece) ? [index] : []));
  const at = pick(random, bends.slice(1));
  const next = pieces.findIndex((piece, index) => index > at && isBend(piece));
  const left = pieces.map((piece, index) => (index === next ? turned(piece, Math.floor(random() * 40)) : piece));
  return { fitted, built: { ...fitted, pieces: left.toSpliced(at, 1) } };
}

/** A bend that was to be cut of pies, and one or two pies too many. */
function piesTooMany(fitted: Primary, random: () => number): Planted {
  const { pieces } = fitted;
  const at = pick(
    random,
    pieces.flatMap((piece, index) => (isBend(piece) && piece.angleDeg <= 60 ? [index] : [])),
  );
  const pies = 3 + Math.floor(random() * 3);
  const withPies = (count: number): Primary => ({
    ...fitted,
    pieces: pieces.map((piece, index): Piece => {
      if (index !== at || !isBend(piece)) return piece;
      return { ...piece, kind: 'pieCut', pies: count, angleDeg: (piece.angleDeg * count) / pies };
    }),
  });
  return { fitted: withPies(pies), built: withPies(pies + 1 + Math.floor(random() * 2)) };
}

function offered({ fitted, built }: Planted, options: MoveOptions, settings: Partial<Settings> = {}): readonly Move[] {
  const header = fittedHeader(built, { targetMm: targetOf(fitted, settings), fitted, settings });
  const outcome = suggestMoves(header, 'own', options);
  const moves = outcome.kind === 'found' ? outcome.moves : [];
  expect(moves.flatMap((move) => faultsOf(header, move, options))).toEqual([]);
  return moves;
}

function targetOf(fitted: Primary, { weldShrinkage }: Partial<Settings>): number {
  return lengthOf(fitted) - (weldShrinkage?.value ?? 0) * (fitted.pieces.length - 1);
}

/** Joints and cuts, as one figure that sorts like them. */
const work = ({ cost }: Move) => 1000 * cost.jointsMade + cost.newCuts;

const SHRINKAGES: readonly Partial<Settings>[] = [{}, { weldShrinkage: millimetres(0.8) }];

function forRuns(seed: number, act: (fitted: Primary, random: () => number, run: number) => void): void {
  const random = seededRandom(seed);
  for (let run = 0; run < RUNS; run += 1) {
    act(shopPrimary({ pieces: 7 + Math.floor(random() * 5), random }), random, run);
  }
}

describe(`planted in random primaries (${RUNS} of each)`, () => {
  it('a bend too many comes out, or something no dearer is offered (seed 41)', () => {
    let out = 0;
    forRuns(41, (fitted, random, run) => {
      const settings = pick(random, SHRINKAGES);
      const planted = bendTooMany(fitted, random);
      const moves = offered(planted, {}, settings);
      // Both its joints come apart and one is made, without a cut.
      expect(work(moves[0] as Move), `run ${run}`).toBeLessThanOrEqual(1000);
      if (moves[0]?.kind === 'bendOut') out += 1;
      const alone = offered(planted, { kinds: ['bendOut'] }, settings);
      expect(
        alone[0]?.changes.some(({ kind }) => kind === 'bendOut'),
        `run ${run}`,
      ).toBe(true);
    });
    expect(out).toBeGreaterThan(RUNS / 2);
  });

  it('a bend left out goes in again, at two joints and one cut (seed 43)', () => {
    let asked = 0;
    forRuns(43, (fitted, random, run) => {
      if (fitted.pieces.filter(isBend).length < 2) return;
      asked += 1;
      const settings = pick(random, SHRINKAGES);
      const moves = offered(bendTooFew(fitted, random), { kinds: ['bendIn'], stock: FULL_SHELF }, settings);
      expect(moves[0]?.cost.bendsAdded, `run ${run}`).toBe(1);
      expect(work(moves[0] as Move), `run ${run}`).toBeLessThanOrEqual(2001);
    });
    expect(asked).toBeGreaterThan(RUNS / 2);
  });

  it('pies too many come off, at one joint and one cut (seed 47)', () => {
    let asked = 0;
    forRuns(47, (fitted, random, run) => {
      if (!fitted.pieces.some((piece) => isBend(piece) && piece.angleDeg <= 60)) return;
      asked += 1;
      const moves = offered(piesTooMany(fitted, random), {});
      expect(work(moves[0] as Move), `run ${run}`).toBeLessThanOrEqual(1001);
    });
    expect(asked).toBeGreaterThan(RUNS / 2);
  });
});

describe('ahead of a welded run', () => {
  it('a kick makes as many joints as it has, never one, and leaves what is welded as it lies (seed 53)', () => {
    let kicks = 0;
    forRuns(53, (made, random) => {
      const from = 2 + Math.floor(random() * (made.pieces.length - 2));
      const pieces = made.pieces.map((piece, index): Piece => (index < from ? piece : { ...piece, state: 'welded' }));
      const built = { ...made, pieces };
      // Bends so tight that a straight of 80 mm has room for a kick.
      const header = fittedHeader(built, { targetMm: lengthOf(built) + 9, settings: { clr: millimetres(25) } });
      const outcome = suggestMoves(header, 'own', { kinds: ['kick'] });
      if (outcome.kind === 'none') return;
      for (const move of outcome.moves) {
        kicks += 1;
        expect(faultsOf(header, move, {})).toEqual([]);
        // Three bends in place of one straight that was tacked in at one end at least.
        expect(move.cost.jointsMade).toBeGreaterThanOrEqual(3);
        expect(move.cost.bendsAdded).toBe(3);
      }
    });
    expect(kicks).toBeGreaterThan(RUNS / 4);
  });
});
