/**
 * Firing intervals of engines that do not fire evenly, against published ones and against the crank itself: a piston is at the
 * top when its crankpin points along its cylinder, and fires every second time.
 */

import { describe, expect, test } from 'vitest';
import { COMMON_ORDERS } from '../../core/gas/firing-order.ts';

/** Published: name in our list, intervals, and where they were read. */
const PUBLISHED: readonly (readonly [string, readonly number[]])[] = [
  // Wikipedia, Big-bang firing order, table of twins (copy at cryer.org.uk/big-bang_firing_order).
  ['Twin in line, 180° crank', [180, 540]],
  ['Twin in line, 270° crank, or V-twin, 90°', [270, 450]],
  ['V-twin, 60°, one crankpin', [300, 420]],
  // jalopnik.com 1962281 (2025), of V-twins at 45 degrees with both rods on one pin.
  ['V-twin, 45°, one crankpin', [315, 405]],
  // jalopnik.com 2097604 (2026), order 1-3-2-4 of a four with a cross-plane crank.
  ['Four in line, cross-plane crank', [270, 180, 90, 180]],
  // Wikipedia, V6 engine, 90 degrees with shared pins: by turns 90 and 150 (quoted at diki.de, crankshaft rotation).
  ['V6, 90°, three crankpins, odd numbers one bank', [150, 90, 150, 90, 150, 90]],
];

const named = (name: string) => {
  const found = COMMON_ORDERS.find((one) => one.name === name);
  if (found === undefined) throw new Error(`no ${name}`);
  return found;
};

test.each(PUBLISHED)('%s fires as published', (name, intervals) => {
  expect(named(name).intervalsDeg).toEqual(intervals);
});

interface Crank {
  /** Of each cylinder from 1 up: the direction of its bore, and of its crankpin at the start; the crank turns the way that degrees count. */
  readonly boresDeg: readonly number[];
  readonly pinsDeg: readonly number[];
}

const turn = (deg: number) => ((deg % 360) + 360) % 360;

/** Each cylinder of the order is taken at the first time that its piston is at the top after the one before it. */
function intervalsOf({ boresDeg, pinsDeg }: Crank, order: readonly number[]): readonly number[] {
  const topDeg = (cylinder: number) => turn((boresDeg[cylinder - 1] ?? 0) - (pinsDeg[cylinder - 1] ?? 0));
  let now = topDeg(order[0] ?? 1);
  const start = now;
  const fires = order.map((cylinder) => {
    now += turn(topDeg(cylinder) - now);
    return now;
  });
  return fires.map((deg, at) => (fires[at + 1] ?? start + 720) - deg);
}

const bank = (count: number, oddDeg: number, evenDeg: number) =>
  Array.from({ length: count }, (_, at) => (at % 2 === 0 ? oddDeg : evenDeg));

describe('the crank itself', () => {
  const CRANKS: readonly (readonly [string, Crank])[] = [
    ['Twin in line, 180° crank', { boresDeg: [0, 0], pinsDeg: [0, 180] }],
    ['Twin in line, 270° crank, or V-twin, 90°', { boresDeg: [0, 0], pinsDeg: [0, 90] }],
    // On one pin the cylinder that the pin comes to last fires first of the two: 360 less the angle between them.
    ['Twin in line, 270° crank, or V-twin, 90°', { boresDeg: [45, -45], pinsDeg: [0, 0] }],
    ['V-twin, 60°, one crankpin', { boresDeg: [30, -30], pinsDeg: [0, 0] }],
    ['V-twin, 45°, one crankpin', { boresDeg: [22.5, -22.5], pinsDeg: [0, 0] }],
    ['Four in line, cross-plane crank', { boresDeg: [0, 0, 0, 0], pinsDeg: [0, 270, 90, 180] }],
    [
      'V6, 90°, three crankpins, odd numbers one bank',
      { boresDeg: bank(6, 45, -45), pinsDeg: [0, 0, 240, 240, 120, 120] },
    ],
  ];

  test.each(CRANKS)('%s: its pins and bores give the intervals', (name, crank) => {
    const { order, intervalsDeg } = named(name);
    expect(intervalsOf(crank, order)).toEqual(intervalsDeg);
  });

  test('even engines of the list come out even by the same reckoning', () => {
    const four = { boresDeg: [0, 0, 0, 0], pinsDeg: [0, 180, 180, 0] };
    expect(intervalsOf(four, named('Four in line').order)).toEqual([180, 180, 180, 180]);
    const crossPlane = { boresDeg: bank(8, 45, -45), pinsDeg: [0, 0, 90, 90, 270, 270, 180, 180] };
    expect(intervalsOf(crossPlane, named('V8 cross-plane, odd numbers one bank').order)).toEqual(Array(8).fill(90));
  });
});

test('every engine of the list fires once a cylinder in 720 degrees', () => {
  for (const { order, intervalsDeg } of COMMON_ORDERS) {
    if (intervalsDeg === undefined) continue;
    expect(intervalsDeg).toHaveLength(order.length);
    expect(intervalsDeg.reduce((sum, interval) => sum + interval, 0)).toBe(720);
  }
});
