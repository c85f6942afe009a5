/** The header on a bench: heights and places by hand, and laws that hold however it lies. */

import { describe, expect, test } from 'vitest';
import { demoHeader } from '../../../core/header/demo-header.ts';
import type { Header } from '../../../core/header/header.ts';
import { placedPath } from '../../../core/path/ends/inlet-pose.ts';
import { distance } from '../../../core/path/vector.ts';
import type { BenchAsked } from '../../../core/sheet/fixture/bench-plane.ts';
import { type FixturePlace, type FixtureSheet, fixtureSheet } from '../../../core/sheet/fixture/fixture-sheet.ts';
import { millimetres } from '../../../core/units/length.ts';
import { expectWithin, expectWithinDeg } from '../../tolerance.ts';
import { bend, headerOf, poseAt, primaryOf, straight } from '../path/made-primaries.ts';

const AT = (x: number, y: number, z: number) => ({ x, y, z });

/** A port that points up, 100 up, then a 90 on 50 towards x, then 60 level. */
const primary = primaryOf([straight(100), bend(50, 90, 0), straight(60)], {
  port: poseAt(AT(10, 20, 30), AT(0, 0, 1), AT(1, 0, 0)),
  inletId: 'i',
});
const header: Header = headerOf(
  [primary],
  {
    collectors: [
      {
        id: 'c',
        name: 'made up',
        inlets: [
          {
            id: 'i',
            name: '1',
            place: { kind: 'pose', pose: poseAt(AT(120, 20, 180), AT(1, 0, 0), AT(0, 0, 1)) },
            slip: { deeper: millimetres(0), shallower: millimetres(0) },
          },
        ],
      },
    ],
  },
  { tube: { material: 'made up', od: millimetres(40), wall: millimetres(1) } },
);

function laid(on: Header, asked: BenchAsked): FixtureSheet {
  const sheet = fixtureSheet(on, asked);
  if (!sheet.ok) throw new Error(JSON.stringify(sheet.problems));
  return sheet.value;
}

function expectPlace(place: FixturePlace | undefined, [x, y, height, under]: readonly (number | null)[]): void {
  if (place === undefined) throw new Error('no such place');
  expectWithin(place.xMm, x ?? 0, 1e-9);
  expectWithin(place.yMm, y ?? 0, 1e-9);
  expectWithin(place.heightMm, height ?? 0, 1e-9);
  if (under === null) expect(place.underMm).toBeNull();
  else expectWithin(place.underMm ?? Number.NaN, under ?? 0, 1e-9);
}

describe('flange down', () => {
  const sheet = laid(header, { kind: 'flangeDown', primaryId: 'primary' });
  const places = sheet.primaries[0]?.places ?? [];
  test('places and heights, by hand', () => {
    // The port's up is x, and nothing else gives the bench a direction.
    expectPlace(places[0], [0, 0, 0, null]);
    expectPlace(places[1], [0, 0, 100, null]);
    expectPlace(places[2], [50, 0, 150, 130]);
    expectPlace(places[3], [110, 0, 150, 130]);
    expectPlace(sheet.inlets[0], [110, 0, 150, 130]);
    expect(sheet.blocksMm).toBe(0);
  });
  test('ways of the tube', () => {
    expect(places[0]?.planDeg).toBeNull();
    expectWithinDeg(places[0]?.riseDeg ?? 0, 90, 1e-9);
    expectWithinDeg(places[2]?.planDeg ?? 9, 0, 1e-9);
    expectWithinDeg(places[2]?.riseDeg ?? 9, 0, 1e-9);
  });
  test('names tell joint, port and end', () => {
    expect(places.map(({ name }) => name)).toEqual(['1 port', '1-1', '1-2', '1 end']);
  });
});

test('collector down: the inlet lies on the bench, and what reaches below it is blocked up', () => {
  const sheet = laid(header, { kind: 'collectorDown', inletId: 'i' });
  // Up is against the inlet's direction, -x: the port is 110 above; the bend's lowest point is the end itself, cut square.
  expectWithin(sheet.inlets[0]?.heightMm ?? 9, 0, 1e-9);
  expectWithin(sheet.primaries[0]?.places[0]?.heightMm ?? 0, 110, 1e-9);
  expect(sheet.blocksMm).toBe(0);
  const under = { ...header, primaries: [{ ...primary, pieces: [straight(100), bend(50, 90, 0), straight(75)] }] };
  const blocked = laid(under, { kind: 'collectorDown', inletId: 'i' });
  expectWithin(blocked.blocksMm, 15, 1e-9);
  expectWithin(blocked.inlets[0]?.heightMm ?? 0, 15, 1e-9);
});

test('two ports and an inlet lie on one level, and all distances are those of the header', () => {
  const demo = demoHeader('demo');
  const sheet = laid(demo, {
    kind: 'threePlaces',
    primaryIdA: 'primary-1',
    primaryIdB: 'primary-4',
    inletId: 'inlet-2',
  });
  const port = (at: number) => sheet.primaries[at]?.places[0];
  const inlet = sheet.inlets.find(({ name }) => name === 'inlet 2');
  for (const place of [port(0), port(3), inlet]) expectWithin(place?.heightMm ?? 0, sheet.blocksMm, 1e-9);
  const all = sheet.primaries.flatMap(({ places }) => places);
  const points = demo.primaries.flatMap((one) => {
    const path = placedPath(one);
    return path.ok ? path.value.joints.map(({ point }) => point) : [];
  });
  expect(all).toHaveLength(points.length);
  all.forEach((a, at) => {
    const [b, p, q] = [all[(at + 5) % all.length], points[at], points[(at + 5) % all.length]];
    if (b === undefined || p === undefined || q === undefined) throw new Error('no such place');
    expectWithin(Math.hypot(a.xMm - b.xMm, a.yMm - b.yMm, a.heightMm - b.heightMm), distance(p, q), 1e-9);
  });
});

test('nothing reaches below the bench', () => {
  const asked: BenchAsked[] = [
    { kind: 'flangeDown', primaryId: 'primary-2' },
    { kind: 'collectorDown', inletId: 'inlet-3' },
    { kind: 'threePlaces', primaryIdA: 'primary-2', primaryIdB: 'primary-3', inletId: 'inlet-4' },
  ];
  for (const bench of asked) {
    const { primaries, blocksMm } = laid(demoHeader('demo'), bench);
    expect(blocksMm).toBeGreaterThanOrEqual(0);
    for (const { heightMm } of primaries.flatMap(({ places }) => places)) expect(heightMm).toBeGreaterThan(-1e-9);
  }
});

describe('the underside straight below', () => {
  const under = (angleDeg: number, ...after: Parameters<typeof primaryOf>[0]) => {
    const one = primaryOf([straight(40), bend(80, angleDeg, 0), ...after], {
      port: poseAt(AT(0, 0, 0), AT(0, 0, 1), AT(1, 0, 0)),
    });
    const tube = { material: 'made up', od: millimetres(40), wall: millimetres(1) };
    const sheet = laid(headerOf([one], {}, { tube }), { kind: 'flangeDown', primaryId: 'primary' });
    return sheet.primaries[0]?.places ?? [];
  };
  test('of a bend that rises is the inside of the bend, not a straight tube drawn on backwards', () => {
    // CLR 80, OD 40: the inside runs on 60 about (80, 40). 60 degrees on, the middle is at x = 80 (1 - cos 60) = 40.
    const [, , end] = under(60, straight(50));
    expectWithin(end?.heightMm ?? 0, 40 + 80 * Math.sin(Math.PI / 3), 1e-9);
    expectWithin(end?.underMm ?? 0, 40 + Math.sqrt(60 ** 2 - 40 ** 2), 1e-9);
  });
  test('of a straight that rises is OD/2 over the cosine of its rise', () => {
    const last = under(60, straight(50)).at(-1);
    expectWithin(last?.underMm ?? 0, (last?.heightMm ?? 0) - 20 / Math.cos(Math.PI / 6), 1e-9);
  });
  test('is not there where a post would come up inside the tube', () => {
    // 30 degrees on, the middle is at x = 80 (1 - cos 30) = 10.7, which is over the open port.
    expect(under(30, straight(50)).map(({ underMm }) => underMm === null)).toEqual([true, true, true, false]);
  });
  test('is not there below an end that the tube comes down to', () => {
    expect(under(120).at(-1)?.underMm).toBeNull();
  });
});

test('an inlet below all tubes counts too: nothing at all reaches below the bench', () => {
  const short = { ...header, primaries: [{ ...primary, pieces: [straight(100)] }] };
  const low = short.collectors.map((collector) => ({
    ...collector,
    inlets: collector.inlets.map((inlet) => ({
      ...inlet,
      place: { kind: 'pose' as const, pose: poseAt(AT(120, 20, 0), AT(1, 0, 0), AT(0, 0, 1)) },
    })),
  }));
  const sheet = laid({ ...short, collectors: low }, { kind: 'flangeDown', primaryId: 'primary' });
  // The port is at 30, the inlet at 0 with a tube of OD 40: 30 + 20 below.
  expectWithin(sheet.blocksMm, 50, 1e-9);
  expectWithin(sheet.inlets[0]?.underMm ?? Number.NaN, 0, 1e-9);
});

test('places in line, and ports that are not measured, are refused', () => {
  const twice = { kind: 'threePlaces', primaryIdA: 'primary-1', primaryIdB: 'primary-1', inletId: 'inlet-1' } as const;
  const inLine = fixtureSheet(demoHeader('demo'), twice);
  expect(inLine.ok ? 'laid' : inLine.problems[0]?.kind).toBe('placesInLine');
  const lost = headerOf([primaryOf([straight(10)])]);
  const unmeasured = fixtureSheet(lost, { kind: 'flangeDown', primaryId: 'primary' });
  expect(unmeasured.ok ? 'laid' : unmeasured.problems[0]?.kind).toBe('portMissing');
});

test('what is not known is named, and the rest is laid', () => {
  const demo = demoHeader('demo');
  const [first, ...others] = demo.primaries;
  if (first === undefined) throw new Error('the demo has primaries');
  const pieces = first.pieces.map((piece, at) =>
    at === 3 && piece.kind !== 'straight' ? { ...piece, clockingDeg: null } : piece,
  );
  const sheet = laid(
    { ...demo, primaries: [{ ...first, pieces }, ...others] },
    { kind: 'flangeDown', primaryId: 'primary-4' },
  );
  expect(sheet.problems.map(({ kind }) => kind)).toEqual(['pathUnknown']);
  expect(sheet.primaries).toHaveLength(4);
  expect(sheet.primaries[0]?.places.map(({ name }) => name)).toEqual(['1 port', '1-1', '1-2', '1-3']);
});
