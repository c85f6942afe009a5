/** Comparing two primaries: the piece that differs is named, and so is the joint that explains the miss. */

import { describe, expect, test } from 'vitest';
import { demoHeader } from '../../../../core/header/demo-header.ts';
import type { Piece, Primary } from '../../../../core/header/header.ts';
import { compareBanks } from '../../../../core/path/banks/compare-banks.ts';
import { comparePrimaries } from '../../../../core/path/banks/compare-primaries.ts';
import { mirrorPiece } from '../../../../core/path/banks/mirror.ts';
import { jointTurnsToInlet, singleJointTurns } from '../../../../core/path/ends/single-joint.ts';
import { frameOfPose } from '../../../../core/path/frame.ts';
import { tracePrimary } from '../../../../core/path/trace-primary.ts';
import { millimetres } from '../../../../core/units/length.ts';
import { expectWithin, expectWithinDeg } from '../../../tolerance.ts';
import {
  ALONG_X,
  bend,
  foundValue,
  pieCut,
  primaryOf,
  problemOf,
  randomPrimary,
  seededRandom,
  straight,
} from '../made-primaries.ts';

const PIECES: readonly Piece[] = [
  straight(70),
  bend(76.2, 90, 20),
  straight(40),
  bend(76.2, 60, 45),
  straight(55),
  pieCut(76.2, 45, -80, 3),
  straight(120),
  bend(63.5, 30, 110),
  straight(90),
];

const left = primaryOf(PIECES, { id: 'left', port: ALONG_X });
const changed = (primary: Primary, index: number, change: object): Primary => ({
  ...primary,
  pieces: primary.pieces.map((piece, at) => (at === index ? ({ ...piece, ...change } as Piece) : piece)),
});
const otherHand = (primary: Primary): Primary => ({
  ...primary,
  id: 'right',
  pieces: primary.pieces.map((piece) => mirrorPiece(piece)),
});

describe('the same primary', () => {
  test('differs in nothing', () => {
    const found = foundValue(comparePrimaries(left, left));
    expect(found).toMatchObject({ isMirrored: false, differences: [], bestJoint: null, bestMending: null });
    expectWithin(found.closure?.gapMm ?? Number.NaN, 0, 0);
  });

  test('built to the other hand differs in nothing but the hand', () => {
    expect(foundValue(comparePrimaries(left, otherHand(left)))).toMatchObject({
      isMirrored: true,
      differences: [],
      bestJoint: null,
    });
  });

  test('may be held to one hand', () => {
    const found = foundValue(comparePrimaries(left, otherHand(left), { isMirrored: false }));
    expect(found.differences.map(({ kind }) => kind)).toEqual(['clocking', 'clocking', 'clocking', 'clocking']);
  });
});

describe('one joint reading 40 on the gauge where 45 is wanted (common practice)', () => {
  const right = otherHand(left);
  // The other hand wants -45 there.
  const found = foundValue(comparePrimaries(left, changed(right, 3, { clockingDeg: -40 })));

  test('the comparison names that joint alone, and by how much', () => {
    expect(found.isMirrored).toBe(true);
    expect(found.differences).toHaveLength(1);
    expect(found.differences[0]).toMatchObject({ kind: 'clocking', indexInReference: 3, indexInOther: 3 });
    expectWithinDeg(found.differences[0]?.by ?? Number.NaN, 5, 1e-9);
  });

  test('the same joint explains the miss at the collector best, and turning it back by 5 closes it', () => {
    expect(found.closure?.gapMm).toBeGreaterThan(5);
    expect(found.bestJoint).toMatchObject({ pieceIndex: 3, pieceId: PIECES[3]?.id });
    expectWithinDeg(found.bestJoint?.turnDeg ?? Number.NaN, -5, 1e-9);
    expectWithin(found.bestJoint?.closureAfter.gapMm ?? Number.NaN, 0, 1e-9);
    expectWithin(found.bestMending?.closureAfterMending?.gapMm ?? Number.NaN, 0, 1e-9);
    expectWithinDeg(found.bestMending?.closureAfterMending?.tiltDeg ?? Number.NaN, 0, 1e-9);
  });
});

test('5 degrees on any one joint of random primaries is found and named (seed 61)', () => {
  const random = seededRandom(61);
  let tried = 0;
  for (let round = 0; round < 200; round += 1) {
    const reference = randomPrimary({ pieces: 9, random });
    const bends = reference.pieces.flatMap((piece, index) => (piece.kind === 'straight' ? [] : [index]));
    const index = bends[Math.floor(random() * bends.length)];
    const piece = index === undefined ? undefined : reference.pieces[index];
    if (index === undefined || piece === undefined || piece.kind === 'straight') continue;
    const found = foundValue(
      comparePrimaries(reference, changed(reference, index, { clockingDeg: (piece.clockingDeg ?? 0) + 5 })),
    );
    expect(found.differences.map(({ kind, indexInOther }) => [kind, indexInOther])).toEqual([['clocking', index]]);
    expect(found.bestMending?.indexInOther).toBe(index);
    expectWithin(found.bestJoint?.closureAfter.gapMm ?? Number.NaN, 0, 1e-6);
    tried += 1;
  }
  expect(tried).toBeGreaterThan(150);
});

describe('other differences', () => {
  test('length, angle, CLR and pies, each with its amount', () => {
    const other = [
      [0, { length: millimetres(72) }],
      [1, { angleDeg: 88 }],
      [3, { clr: millimetres(63.5) }],
      [5, { pies: 5 }],
    ].reduce((primary, [index, change]) => changed(primary, index as number, change as object), left);
    const { differences } = foundValue(comparePrimaries(left, other));
    expect(
      differences.map(({ kind, indexInOther, by }) => [kind, indexInOther, Math.round((by ?? 0) * 1e6) / 1e6]),
    ).toEqual([
      ['length', 0, 2],
      ['angle', 1, -2],
      ['clr', 3, -12.7],
      ['pies', 5, 2],
    ]);
  });

  test('mending a length takes away just its share of the miss', () => {
    const { differences, closure } = foundValue(comparePrimaries(left, changed(left, 4, { length: millimetres(60) })));
    expectWithin(closure?.gapMm ?? Number.NaN, 5, 1e-9);
    expectWithin(differences[0]?.closureAfterMending?.gapMm ?? Number.NaN, 0, 1e-9);
  });

  test('an extra piece is named, and those after it are not blamed', () => {
    const extra = { ...left, pieces: left.pieces.toSpliced(4, 0, bend(50, 15, 0)) };
    const found = foundValue(comparePrimaries(left, extra));
    expect(found.differences.map(({ kind, indexInOther }) => [kind, indexInOther])).toEqual([['extra', 4]]);
    expectWithin(found.differences[0]?.closureAfterMending?.gapMm ?? Number.NaN, 0, 1e-9);
  });

  test('an extra straight beside another, and an extra bend beside another, are told from their neighbours', () => {
    const pieces = left.pieces.toSpliced(5, 0, straight(9)).toSpliced(2, 0, bend(50, 15, 20));
    const found = foundValue(comparePrimaries(left, { ...left, pieces }));
    expect(found.differences.map(({ kind, indexInOther }) => [kind, indexInOther])).toEqual([
      ['extra', 2],
      ['extra', 6],
    ]);
  });

  test('a missing piece is named, and put back it closes', () => {
    const missing = { ...left, pieces: left.pieces.toSpliced(3, 1) };
    const found = foundValue(comparePrimaries(left, missing));
    expect(found.differences.map(({ kind, indexInReference }) => [kind, indexInReference])).toEqual([['missing', 3]]);
    expectWithin(found.bestMending?.closureAfterMending?.gapMm ?? Number.NaN, 0, 1e-9);
  });

  test('a bend in place of a pie-cut one of the same size is a difference of kind', () => {
    const found = foundValue(comparePrimaries(left, changed(left, 5, { kind: 'bend' })));
    expect(found.differences.map(({ kind }) => kind)).toEqual(['kind']);
    expectWithin(found.closure?.gapMm ?? Number.NaN, 0, 1e-9);
    expect(found.bestMending).toBeNull();
  });

  test('a clocking that is not recorded is a difference, but then nothing is said about ends', () => {
    const found = foundValue(comparePrimaries(left, changed(left, 7, { clockingDeg: null })));
    expect(found.differences).toMatchObject([
      { kind: 'clocking', indexInOther: 7, by: null, closureAfterMending: null },
    ]);
    expect(found).toMatchObject({ closure: null, bestJoint: null, bestMending: null });
  });

  test('a bad port on the other is refused', () => {
    const bad = { ...left, port: { ...ALONG_X, up: ALONG_X.direction } };
    expect(problemOf(comparePrimaries(left, bad))).toMatchObject({ kind: 'poseUpParallel' });
  });
});

describe('banks', () => {
  const bank = demoHeader('demo').primaries;
  const opposite = bank.map((primary) => ({ ...otherHand(primary), id: `${primary.id}-right` }));

  test('of the other hand agree, primary by primary', () => {
    for (const { comparison } of compareBanks(bank, opposite)) {
      expect(comparison === null ? null : foundValue(comparison)).toMatchObject({ isMirrored: true, differences: [] });
    }
  });

  test('differ at the one joint that is clocked wrong, and nowhere else', () => {
    const wrong = opposite.map((primary, index) => (index === 2 ? changed(primary, 3, { clockingDeg: -35 }) : primary));
    const found = compareBanks(bank, wrong).map(({ comparison }) => comparison && foundValue(comparison).differences);
    expect(found).toMatchObject([[], [], [{ kind: 'clocking', indexInOther: 3, by: expect.closeTo(-5, 9) }], []]);
  });

  test('of unlike number leave the rest without partner', () => {
    expect(compareBanks(bank, opposite.slice(0, 3))[3]).toEqual({
      referenceId: 'primary-4',
      otherId: null,
      comparison: null,
    });
  });
});

describe('the best turn of a single joint', () => {
  test('towards its inlet, from a primary of the demo header that closes but for one joint', () => {
    const header = demoHeader('demo');
    const sound = header.primaries[3];
    if (sound === undefined) throw new Error('no primary');
    const [best] = foundValue(jointTurnsToInlet(header, changed(sound, 3, { clockingDeg: 95 })));
    expect(best).toMatchObject({ pieceIndex: 3 });
    // The inlet is measured to a ten-thousandth of an inch.
    expectWithinDeg(best?.turnDeg ?? Number.NaN, -5, 0.001);
    expectWithin(best?.closureAfter.gapMm ?? Number.NaN, 0, 0.01);
    expect(problemOf(jointTurnsToInlet(header, { ...sound, inletId: null }))).toMatchObject({
      kind: 'inletNotAssigned',
    });
    expect(problemOf(jointTurnsToInlet(header, { ...sound, inletId: 'none' }))).toMatchObject({ kind: 'noSuchInlet' });
  });

  test('no other turn of any joint comes nearer (checked by trying every half degree)', () => {
    const random = seededRandom(67);
    for (let round = 0; round < 10; round += 1) {
      const primary = { ...randomPrimary({ pieces: 7, random }), port: ALONG_X };
      const wanted = foundValue(tracePrimary(randomPrimary({ pieces: 7, random }), ALONG_X)).end;
      const start = foundValue(frameOfPose(ALONG_X));
      for (const { pieceIndex, leftMm } of singleJointTurns(primary, start, wanted)) {
        for (let turnDeg = -180; turnDeg < 180; turnDeg += 0.5) {
          const piece = primary.pieces[pieceIndex];
          if (piece === undefined || piece.kind === 'straight') throw new Error('not a bend');
          const turned = changed(primary, pieceIndex, { clockingDeg: (piece.clockingDeg ?? 0) + turnDeg });
          const { end } = foundValue(tracePrimary(turned, ALONG_X));
          const gap = Math.hypot(
            end.point.x - wanted.point.x,
            end.point.y - wanted.point.y,
            end.point.z - wanted.point.z,
          );
          const tilt = Math.hypot(
            end.tangent.x - wanted.tangent.x,
            end.tangent.y - wanted.tangent.y,
            end.tangent.z - wanted.tangent.z,
          );
          expect(leftMm).toBeLessThanOrEqual(Math.hypot(gap, 100 * tilt) + 1e-9);
        }
      }
    }
  });
});
