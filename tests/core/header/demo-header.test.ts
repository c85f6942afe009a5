/** The demo header shows what it says it shows, and takes few keystrokes to enter. */

import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import {
  checkHeader,
  demoHeader,
  formatQuickEntry,
  type Header,
  matchHeader,
  mmOf,
  type Piece,
  type Place,
  type Pose,
  readHeader,
  readPartsRows,
} from '../../../core/index.ts';
import { readCsv } from '../../../electron/output/csv.ts';
import { expectWithin } from '../../tolerance.ts';

const demo = demoHeader('demo');

type Vector = readonly [number, number, number];
const plus = (a: Vector, b: Vector, times: number): Vector => [
  a[0] + b[0] * times,
  a[1] + b[1] * times,
  a[2] + b[2] * times,
];
const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const placeMm = ({ x, y, z }: Place): Vector => [mmOf(x), mmOf(y), mmOf(z)];

/** Where the pieces end, by the convention for clocking, worked out here once more on its own. */
function endOf(pieces: readonly Piece[], port: Pose): { readonly at: Vector; readonly direction: Vector } {
  let at = placeMm(port.at);
  let direction: Vector = [port.direction.x, port.direction.y, port.direction.z];
  let inward: Vector = [port.up.x, port.up.y, port.up.z];
  for (const piece of pieces) {
    if (piece.kind === 'straight') {
      at = plus(at, direction, mmOf(piece.length));
      continue;
    }
    const clocking = ((piece.clockingDeg ?? Number.NaN) * Math.PI) / 180;
    const angle = (piece.angleDeg * Math.PI) / 180;
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
    const sideways = cross(direction, inward);
    inward = plus(plus([0, 0, 0], inward, Math.cos(clocking)), sideways, Math.sin(clocking));
    at = plus(plus(at, direction, mmOf(piece.clr) * sin), inward, mmOf(piece.clr) * (1 - cos));
    const [along, toCentre] = [direction, inward];
    direction = plus(plus([0, 0, 0], along, cos), toCentre, sin);
    inward = plus(plus([0, 0, 0], toCentre, cos), along, -sin);
  }
  return { at, direction };
}

test('the demo header is valid, has four primaries of 5 to 9 pieces, and all its clockings are recorded', () => {
  expect(checkHeader(demo)).toEqual({ ok: true, value: demo });
  expect(demo.primaries.map((primary) => primary.pieces.length)).toEqual([9, 9, 7, 7]);
  const bends = demo.primaries.flatMap((primary) => primary.pieces).filter((piece) => piece.kind !== 'straight');
  expect(bends.every((bend) => bend.clockingDeg !== null)).toBe(true);
});

test('cylinder 4 sets the length; 1 is in the band, 2 is about 1/4 in long and 3 about 3/16 in short', () => {
  const report = matchHeader(demo);
  expect(report.targetPrimaryId).toBe('primary-4');
  expect(report.primaries.map((primary) => primary.verdict)).toEqual(['inBand', 'long', 'short', null]);
  expect(report.primaries.map((primary) => primary.side)).toEqual(['inBand', 'long', 'short', 'inBand']);
  expect(report.primaries.map((primary) => primary.building?.kind ?? null)).toEqual([null, null, null, null]);
  const deviationsMm = report.primaries.map((primary) => primary.deviationMm ?? Number.NaN);
  [-1 / 16, 1 / 4, -3 / 16, 0].forEach((deviationIn, index) => {
    expectWithin(deviationsMm[index] ?? Number.NaN, deviationIn * 25.4, 25.4 / 32);
  });
  for (const primary of report.primaries) expectWithin(primary.lengthMm, 35 * 25.4, 25.4);
});

test('primaries 1 and 4 end in their inlets to 0.1 mm, and 2 and 3 near theirs, all pointing down', () => {
  const inlets = demo.collectors.flatMap((collector) => collector.inlets);
  const missesMm = demo.primaries.map((primary) => {
    const end = endOf(primary.pieces, primary.port as Pose);
    expectWithin(end.direction[2], -1, 1e-12);
    const place = inlets.find((inlet) => inlet.id === primary.inletId)?.place;
    if (place?.kind !== 'pose') throw new Error('the inlet has no pose');
    return Math.hypot(...plus(end.at, placeMm(place.pose.at), -1));
  });
  expect(missesMm[0]).toBeLessThan(0.1);
  expect(missesMm[3]).toBeLessThan(0.1);
  expect(missesMm[1]).toBeLessThan(5);
  expect(missesMm[2]).toBeLessThan(5);
});

test('entering its pieces takes at most 7 keystrokes a piece, Enter and clockings included', () => {
  const context = { unit: 'in' as const, clr: demo.settings.clr };
  const lines = demo.primaries.flatMap((primary) => primary.pieces.map((piece) => formatQuickEntry(piece, context)));
  const keystrokes = lines.reduce((sum, line) => sum + line.length + 1, 0);
  expect(lines.length).toBe(32);
  expect(keystrokes / lines.length).toBeLessThanOrEqual(7);
});

test('the demo files hold the demo header: the format of version 1 is read for ever, and so is its parts list', () => {
  const file = (name: string) => readFileSync(new URL(`../../../fixtures/demo/${name}`, import.meta.url));
  expect(readHeader(file('hill-climb-four.evenrun.json').toString())).toEqual({ ok: true, value: demo });
  const rows = readCsv(file('hill-climb-four-parts.csv'));
  if (!rows.ok) throw new Error('the parts list cannot be split');
  const { primaries, refused } = readPartsRows(rows.value, { unit: 'in', newId: () => 'same' });
  expect(refused).toEqual([]);
  const shapes = (list: Header['primaries']) =>
    list.map(({ name, pieces }) => [name, pieces.map((piece) => ({ ...piece, id: 'same' }))]);
  expect(shapes(primaries)).toEqual(shapes(demo.primaries));
});
