/** Two bends between two poses by a dense search of another kind: plane and angle of the first bend on a grid, then Newton's method in two unknowns. */

import { degreesOf } from '../../../core/units/angle.ts';

export interface DenseQuestion {
  /** Place, direction and up of port and inlet; directions of length 1, up square to the direction. */
  readonly from: readonly [Triple, Triple, Triple];
  readonly to: readonly [Triple, Triple];
  readonly clrsMm: readonly [number, number];
  readonly firstMm: number;
  readonly lengthMm: number;
  readonly leastMm: number;
}

export type Triple = readonly [number, number, number];

export interface DenseSolution {
  readonly clockingDeg: number;
  readonly firstDeg: number;
  readonly middleMm: number;
  readonly lastMm: number;
}

const dot = (a: Triple, b: Triple) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Triple, b: Triple): Triple => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const sum = (...terms: readonly (readonly [number, Triple])[]): Triple =>
  [0, 1, 2].map((i) =>
    terms.reduce((total, [by, vector]) => total + by * (vector[i] as number), 0),
  ) as unknown as Triple;

/** What is off once the first bend is made: how far the lines pass each other, and the length; with the tube as it would be. */
interface Miss {
  readonly passMm: number;
  readonly longMm: number;
  readonly middleMm: number;
  readonly lastMm: number;
}

function missOf({ from, to, clrsMm, firstMm, lengthMm }: DenseQuestion, clocking: number, angle: number): Miss {
  const [point, along, up] = from;
  const [end, into] = to;
  const inward = sum([Math.cos(clocking), up], [Math.sin(clocking), cross(along, up)]);
  const [clr1, clr2] = clrsMm;
  const leaves = sum([1, point], [firstMm + clr1 * Math.sin(angle), along], [clr1 * (1 - Math.cos(angle)), inward]);
  const way = sum([Math.cos(angle), along], [Math.sin(angle), inward]);
  const normal = cross(way, into);
  const square = dot(normal, normal);
  const between = sum([1, end], [-1, leaves]);
  const toCorner = dot(cross(between, into), normal) / square;
  const afterCorner = -dot(cross(between, way), normal) / square;
  const second = Math.atan2(Math.sqrt(square), dot(way, into));
  const setback = clr2 * Math.tan(second / 2);
  const [middleMm, lastMm] = [toCorner - setback, afterCorner - setback];
  const longMm = firstMm + clr1 * angle + middleMm + clr2 * second + lastMm - lengthMm;
  return { passMm: dot(between, normal) / Math.sqrt(square), longMm, middleMm, lastMm };
}

export interface Density {
  readonly clockings: number;
  readonly angles: number;
}

/** All solutions that a grid of this density leads to, each once. */
export function denseTwoBends(question: DenseQuestion, { clockings, angles }: Density): readonly DenseSolution[] {
  const at = (i: number, j: number) => missOf(question, (2 * Math.PI * i) / clockings, (Math.PI * (j + 0.5)) / angles);
  const rows = Array.from({ length: clockings + 1 }, (_, i) => Array.from({ length: angles }, (_, j) => at(i, j)));
  const found: DenseSolution[] = [];
  for (let i = 0; i < clockings; i += 1) {
    for (let j = 0; j + 1 < angles; j += 1) {
      const corners = [rows[i]?.[j], rows[i]?.[j + 1], rows[i + 1]?.[j], rows[i + 1]?.[j + 1]] as readonly Miss[];
      if (!changesSign(corners.map(({ passMm }) => passMm)) || !changesSign(corners.map(({ longMm }) => longMm)))
        continue;
      const solution = newton(question, (2 * Math.PI * (i + 0.5)) / clockings, (Math.PI * (j + 1)) / angles);
      if (solution !== null && !found.some((known) => isSame(known, solution))) found.push(solution);
    }
  }
  return found;
}

function changesSign(values: readonly number[]): boolean {
  return values.some((value) => value >= 0) && values.some((value) => value <= 0);
}

function isSame(a: DenseSolution, b: DenseSolution): boolean {
  const turn = Math.abs(((a.clockingDeg - b.clockingDeg + 540) % 360) - 180);
  return turn < 1e-4 && Math.abs(a.firstDeg - b.firstDeg) < 1e-4;
}

function newton(question: DenseQuestion, clockingStart: number, angleStart: number): DenseSolution | null {
  let [clocking, angle] = [clockingStart, angleStart];
  for (let round = 0; round < 40; round += 1) {
    const miss = missOf(question, clocking, angle);
    if (Math.hypot(miss.passMm, miss.longMm) < 1e-9) return solutionOf(question, clocking, angle, miss);
    const by = 1e-6;
    const [turned, bent] = [missOf(question, clocking + by, angle), missOf(question, clocking, angle + by)];
    const [a, b] = [(turned.passMm - miss.passMm) / by, (bent.passMm - miss.passMm) / by];
    const [c, d] = [(turned.longMm - miss.longMm) / by, (bent.longMm - miss.longMm) / by];
    const whole = a * d - b * c;
    if (Math.abs(whole) < 1e-9) return null;
    const held = (step: number) => Math.min(0.2, Math.max(-0.2, step));
    clocking -= held((d * miss.passMm - b * miss.longMm) / whole);
    angle -= held((a * miss.longMm - c * miss.passMm) / whole);
  }
  return null;
}

/** Only what is clearly within the limits: on their edge two searches may differ in the last digit. */
function solutionOf({ leastMm }: DenseQuestion, clocking: number, angle: number, miss: Miss): DenseSolution | null {
  const isWithin = angle > 1e-4 && angle < Math.PI - 1e-4 && Math.min(miss.middleMm, miss.lastMm) > leastMm + 1e-4;
  if (!isWithin) return null;
  return { clockingDeg: degreesOf(clocking), firstDeg: degreesOf(angle), middleMm: miss.middleMm, lastMm: miss.lastMm };
}
