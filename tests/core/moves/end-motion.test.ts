import { describe, expect, it } from 'vitest';
import type { Piece } from '../../../core/header/header.ts';
import { readMoveProblem } from '../../../core/moves/problem/move-problem.ts';
import { variablesOf } from '../../../core/moves/problem/variables.ts';
import { moveEnd } from '../../../core/moves/turning/end-motion.ts';
import { aimAt } from '../../../core/moves/turning/miss.ts';
import { settle } from '../../../core/moves/turning/settle.ts';
import { oneTurn, twoTurns } from '../../../core/moves/turning/turn-seeds.ts';
import { tracePrimary } from '../../../core/path/trace-primary.ts';
import { angleBetweenRad, turnAbout, unit, type Vector } from '../../../core/path/vector.ts';
import { degreesOf } from '../../../core/units/angle.ts';
import { millimetres } from '../../../core/units/length.ts';
import { expectWithin } from '../../tolerance.ts';
import { foundValue, randomDirection, seededRandom } from '../path/made-primaries.ts';
import { FULL_SHELF } from './disturb.ts';
import { fittedHeader, lengthOf, shopPrimary } from './made-headers.ts';

const RUNS = 200;

function madeProblem(seed: number) {
  const primary = shopPrimary({ pieces: 9, random: seededRandom(seed) });
  const header = fittedHeader(primary, { targetMm: lengthOf(primary) + 10 });
  const read = readMoveProblem(header, 'own', { stock: FULL_SHELF });
  if (!read.ok || read.problem.ends === null) throw new Error('Not readable');
  return { primary, problem: read.problem, ends: read.problem.ends };
}

/** The primary with one variable changed by `value`, as an edit would change it. */
function changed(piece: Piece, kind: string, value: number, clrMm: number): Piece {
  if (piece.kind === 'straight') return { ...piece, length: millimetres(piece.length.value + value) };
  if (kind === 'clocking') return { ...piece, clockingDeg: (piece.clockingDeg ?? 0) + degreesOf(value) };
  const angled = { ...piece, angleDeg: piece.angleDeg + degreesOf(value) };
  return kind === 'swap' ? { ...angled, clr: millimetres(clrMm) } : angled;
}

describe('the motion of the end', () => {
  it('is that of the path traced anew, for several changes at once', () => {
    for (let seed = 1; seed <= RUNS; seed += 1) {
      const random = seededRandom(seed * 31);
      const { primary, problem, ends } = madeProblem(seed);
      const variables = variablesOf(problem, ends).filter(({ kind }) => kind !== 'letIn' && kind !== 'takeOut');
      const taken = new Set<number>();
      const chosen = variables.filter(({ slot }) => {
        if (taken.has(slot) || random() < 0.6) return false;
        taken.add(slot);
        return true;
      });
      const few = chosen.slice(0, 8);
      const values = few.map(({ kind }) => (kind === 'length' ? random() * 20 : (random() - 0.5) * 0.4));
      const pieces = [...primary.pieces];
      for (const [i, { kind, pieceIndex, clr }] of few.entries()) {
        pieces[pieceIndex] = changed(pieces[pieceIndex] as Piece, kind, values[i] as number, clr?.value ?? 0);
      }
      const end = foundValue(tracePrimary({ ...primary, pieces }, primary.port)).end;
      const moved = moveEnd(
        few.map(({ screw }) => screw),
        values,
        ends.end,
      ).end;
      const traced = [end.point.x, end.point.y, end.point.z, end.tangent.x, end.tangent.y, end.tangent.z];
      traced.forEach((figure, i) => {
        expectWithin(moved[i] as number, figure, 1e-9);
      });
      const lengthMm = lengthOf({ ...primary, pieces });
      const gainMm = few.reduce(
        (sum, { screw }, i) => sum + screw.lengthShiftMm + screw.lengthPer * (values[i] as number),
        0,
      );
      expectWithin(lengthOf(primary) + gainMm, lengthMm, 1e-9);
    }
  });

  it('has the derivatives that small steps show', () => {
    const { problem, ends } = madeProblem(5);
    const screws = variablesOf(problem, ends)
      .filter(({ kind }) => kind === 'clocking' || kind === 'angle' || kind === 'length')
      .slice(2, 8)
      .map(({ screw }) => screw);
    const values = screws.map((_, i) => 0.1 * (i + 1));
    const gradients = [...moveEnd(screws, values, ends.end).gradients];
    for (let i = 0; i < screws.length; i += 1) {
      const step = 1e-6;
      const nudged = (by: number) => [...moveEnd(screws, values.with(i, (values[i] as number) + by), ends.end).end];
      const ahead = nudged(step);
      const behind = nudged(-step);
      for (let row = 0; row < 6; row += 1) {
        const slope = ((ahead[row] as number) - (behind[row] as number)) / (2 * step);
        expectWithin(gradients[6 * i + row] as number, slope, 1e-5);
      }
    }
  });
});

describe('turns in closed form', () => {
  it('carry one direction onto the other, about two axes', () => {
    const random = seededRandom(11);
    let found = 0;
    for (let run = 0; run < RUNS; run += 1) {
      const axes = { first: unit(randomDirection(random)), second: unit(randomDirection(random)) };
      const from = unit(randomDirection(random));
      const to = turnAbout(axes.first, turnAbout(axes.second, from, random() * 6), random() * 6);
      const pairs = twoTurns(axes, from, to, 0);
      found += pairs.length;
      expect(pairs.length).toBeGreaterThan(0);
      for (const [first, second] of pairs) {
        const turned = turnAbout(axes.first, turnAbout(axes.second, from, second), first);
        expectWithin(angleBetweenRad(turned, to), 0, 1e-6);
      }
    }
    expect(found).toBeGreaterThan(1.9 * RUNS);
  });

  it('are none where the cones do not meet', () => {
    const axes = { first: { x: 1, y: 0, z: 0 }, second: { x: 0, y: 1, z: 0 } };
    const nearFirst: Vector = unit({ x: 1, y: 0.1, z: 0 });
    expect(twoTurns(axes, { x: 0, y: 1, z: 0 }, nearFirst, 0.001)).toEqual([]);
    expect(oneTurn(axes.first, { x: 0, y: 1, z: 0 }, nearFirst, 0.001)).toEqual([]);
  });

  it('go round freely where the direction lies on the axis', () => {
    expect(oneTurn({ x: 1, y: 0, z: 0 }, { x: 1, y: 0, z: 0 }, { x: 1, y: 0, z: 0 }, 0)).toHaveLength(7);
  });
});

describe('settling the end', () => {
  it('finds the way back from a disturbance of three values', () => {
    for (let seed = 1; seed <= 50; seed += 1) {
      const { problem, ends } = madeProblem(seed);
      const random = seededRandom(seed * 17);
      const variables = variablesOf(problem, ends).filter(({ kind }) => kind === 'clocking' || kind === 'length');
      const screws = variables.slice(0, 3).map(({ screw }) => screw);
      const away = screws.map(({ lengthPer }) => (lengthPer === 0 ? (random() - 0.5) * 0.3 : (random() - 0.5) * 30));
      const moved = [...moveEnd(screws, away, ends.end).end];
      const wanted = {
        point: { x: moved[0] as number, y: moved[1] as number, z: moved[2] as number },
        tangent: { x: moved[3] as number, y: moved[4] as number, z: moved[5] as number },
        normal: unit(turnAbout({ x: 0.6, y: 0, z: 0.8 }, { x: moved[4] as number, y: -(moved[3] as number), z: 0 }, 0)),
      };
      const gainMm = screws.reduce((sum, { lengthPer }, i) => sum + lengthPer * (away[i] as number), 0);
      const aimMm = problem.window.presentMm + gainMm;
      const window = { presentMm: problem.window.presentMm, aimMm, lowMm: aimMm - 1, highMm: aimMm + 1 };
      const none = screws.map(() => Number.POSITIVE_INFINITY);
      const limits = { low: none.map((one) => -one), high: none };
      const { miss } = settle(
        aimAt({ ...ends, wanted }, window),
        screws,
        screws.map(() => 0),
        limits,
      );
      expectWithin(miss.gapMm, 0, 0.02);
      expectWithin(miss.tiltDeg, 0, 0.02);
      expectWithin(miss.lengthMm, aimMm, 0.2);
    }
  });
});
