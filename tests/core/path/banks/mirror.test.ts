/** Mirroring: the path is the mirror image, twice is nothing, and a bank keeps its closures. */

import { describe, expect, test } from 'vitest';
import { applyEdit } from '../../../../core/edits/apply-edit.ts';
import { mirrorBank, mirroredCopy, mirrorPrimary } from '../../../../core/edits/bank-edits.ts';
import type { BatchEdit } from '../../../../core/edits/edit.ts';
import { demoHeader } from '../../../../core/header/demo-header.ts';
import type { Header, Primary } from '../../../../core/header/header.ts';
import { type MirrorPlane, VEHICLE_MIDDLE } from '../../../../core/path/banks/mirror.ts';
import { primaryClosure } from '../../../../core/path/ends/inlet-pose.ts';
import { tracePrimary } from '../../../../core/path/trace-primary.ts';
import { addScaled, dot, subtract, unit, type Vector } from '../../../../core/path/vector.ts';
import { inches, millimetres } from '../../../../core/units/length.ts';
import { expectWithin } from '../../../tolerance.ts';
import { foundValue, headerOf, problemOf, randomDirection, randomPrimary, seededRandom } from '../made-primaries.ts';
import { expectVector } from '../vector-tolerance.ts';

function applied(header: Header, edit: BatchEdit): Header {
  return foundValue(applyEdit(header, edit)).header;
}

function asBatch(primary: Primary, plane: MirrorPlane): BatchEdit {
  return { kind: 'batch', label: 'mirror', edits: foundValue(mirrorPrimary(primary, plane)) };
}

const firstOf = (header: Header): Primary => {
  const [first] = header.primaries;
  if (first === undefined) throw new Error('no primary');
  return first;
};

describe('one primary', () => {
  const random = seededRandom(51);
  const rounds = Array.from({ length: 200 }, () => ({
    primary: randomPrimary({ pieces: 1 + Math.floor(random() * 15), random }),
    plane: {
      at: { x: millimetres(random() * 50), y: inches(random() * 9 - 5), z: millimetres(random() * -50) },
      normal: randomDirection(random),
    },
  }));

  test('its path is the mirror image of what it was, within 1e-9 mm (200 random, any plane, seed 51)', () => {
    for (const { primary, plane } of rounds) {
      const normal = unit(plane.normal);
      const onPlane = { x: plane.at.x.value, y: plane.at.y.value * 25.4, z: plane.at.z.value };
      const image = (point: Vector) => addScaled(point, normal, -2 * dot(subtract(point, onPlane), normal));
      const mirrored = firstOf(applied(headerOf([primary]), asBatch(primary, plane)));
      const before = foundValue(tracePrimary(primary, primary.port));
      const after = foundValue(tracePrimary(mirrored, mirrored.port));
      for (const [index, joint] of before.joints.entries()) {
        expectVector(after.joints[index]?.point ?? joint.point, image(joint.point), 1e-9);
      }
      expectVector(
        after.end.tangent,
        addScaled(before.end.tangent, normal, -2 * dot(before.end.tangent, normal)),
        1e-12,
      );
    }
  });

  test('twice about a main plane of the vehicle gives the same document back', () => {
    for (const { primary } of rounds.slice(0, 50)) {
      const header = headerOf([primary]);
      const once = applied(header, asBatch(primary, VEHICLE_MIDDLE));
      expect(applied(once, asBatch(firstOf(once), VEHICLE_MIDDLE))).toEqual(header);
    }
  });

  test('twice about any plane gives the same path back within 1e-9 mm', () => {
    for (const { primary, plane } of rounds.slice(0, 50)) {
      const once = firstOf(applied(headerOf([primary]), asBatch(primary, plane)));
      const twice = firstOf(applied(headerOf([once]), asBatch(once, plane)));
      expect(twice.pieces).toEqual(primary.pieces);
      expectVector(
        foundValue(tracePrimary(twice, twice.port)).end.point,
        foundValue(tracePrimary(primary, primary.port)).end.point,
        1e-9,
      );
    }
  });

  test('what lies in the plane stays as typed, and no length or angle changes', () => {
    const { primary } = rounds[0] ?? { primary: randomPrimary({ pieces: 4, random }) };
    const mirrored = firstOf(applied(headerOf([primary]), asBatch(primary, VEHICLE_MIDDLE)));
    expect(mirrored.port?.at.x).toEqual(primary.port?.at.x);
    expect(mirrored.port?.at.y.value).toBe(-(primary.port?.at.y.value ?? Number.NaN));
    const sizes = (one: Primary) =>
      one.pieces.map((piece) => (piece.kind === 'straight' ? piece.length : [piece.clr, piece.angleDeg]));
    expect(sizes(mirrored)).toEqual(sizes(primary));
  });

  test('a plane without direction or place is refused', () => {
    const { primary, plane } = rounds[0] ?? { primary: randomPrimary({ pieces: 4, random }), plane: VEHICLE_MIDDLE };
    const flat = { ...plane, normal: { x: 0, y: 0, z: 0 } };
    expect(problemOf(mirrorPrimary(primary, flat))).toMatchObject({
      kind: 'poseZeroDirection',
      path: ['plane', 'normal'],
    });
    const nowhere = { ...plane, at: { ...plane.at, x: millimetres(Number.NaN) } };
    expect(problemOf(mirrorPrimary(primary, nowhere))).toMatchObject({ kind: 'poseNotFinite' });
  });
});

describe('a bank', () => {
  const header = demoHeader('demo');
  const all = header.primaries.map(({ id }) => id);
  const misses = (one: Header) => one.primaries.map((primary) => foundValue(primaryClosure(one, primary)).gapMm);

  test('its collector goes with it, so that every primary misses by as much as before', () => {
    const mirrored = applied(header, foundValue(mirrorBank(header, all, VEHICLE_MIDDLE)));
    for (const [index, missMm] of misses(mirrored).entries())
      expectWithin(missMm, misses(header)[index] ?? Number.NaN, 1e-9);
    expect(mirrored.collectors[0]?.inlets[0]?.place).not.toEqual(header.collectors[0]?.inlets[0]?.place);
  });

  test('a collector that others end in too stays', () => {
    const edit = foundValue(mirrorBank(header, all.slice(1), VEHICLE_MIDDLE));
    expect(edit.edits.some(({ kind }) => kind === 'replaceCollector')).toBe(false);
  });

  test('a copy stands beside it with names and ids of its own, and closes as well', () => {
    let made = 0;
    const newId = () => {
      made += 1;
      return `copy-${made}`;
    };
    const both = applied(header, foundValue(mirroredCopy(header, all, { plane: VEHICLE_MIDDLE, newId })));
    expect(both.primaries.map(({ name }) => name).slice(4)).toEqual([
      '1 mirrored',
      '2 mirrored',
      '3 mirrored',
      '4 mirrored',
    ]);
    expect(both.primaries.slice(0, 4)).toEqual(header.primaries);
    expect(both.collectors).toHaveLength(2);
    const found = misses(both);
    for (const [index, missMm] of found.slice(4).entries()) expectWithin(missMm, found[index] ?? Number.NaN, 1e-9);
    expect(both.primaries.slice(4).every(({ pieces }) => pieces.every(({ state }) => state === 'planned'))).toBe(true);
  });

  test('goes into the primaries that are empty before any is added, and leaves their names, ports and inlets', () => {
    const header = demoHeader('demo');
    const [first] = header.primaries;
    if (first?.port === null || first === undefined) throw new Error('the demo has ports');
    const measured = { ...first.port, at: { ...first.port.at, x: inches(99) } };
    const empty = { ...first, pieces: [], port: null, inletId: null };
    const waiting: Header = {
      ...header,
      primaries: [
        ...header.primaries,
        { ...empty, id: 'fifth', name: '5' },
        { ...empty, id: 'sixth', name: '6', port: measured },
      ],
    };
    let made = 0;
    const newId = () => {
      made += 1;
      return `copy-${made}`;
    };
    const three = header.primaries.slice(0, 3).map(({ id }) => id);
    const after = applied(waiting, foundValue(mirroredCopy(waiting, three, { plane: VEHICLE_MIDDLE, newId })));
    expect(after.primaries.map(({ name }) => name)).toEqual(['1', '2', '3', '4', '5', '6', '3 mirrored']);
    const counts = (primaries: readonly Primary[]) => primaries.map(({ pieces }) => pieces.length);
    expect(counts(after.primaries.slice(4))).toEqual(counts(header.primaries.slice(0, 3)));
    expect(after.primaries[4]?.port).not.toBeNull();
    expect(after.primaries[5]?.port).toEqual(measured);
    expect(
      after.primaries
        .slice(4)
        .flatMap(({ pieces }) => pieces)
        .every(({ state }) => state === 'planned'),
    ).toBe(true);
  });

  test('a primary that is not there is refused', () => {
    expect(problemOf(mirrorBank(header, ['nobody'], VEHICLE_MIDDLE))).toEqual({
      kind: 'noSuchPrimary',
      primaryId: 'nobody',
    });
  });
});
