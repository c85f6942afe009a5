/** A pair of bends let in at a joint, which steps the tube aside, with two straights to take up the rest. */

import { add, addScaled, cross, scale, type Vector, wrapDeg } from '../../path/vector.ts';
import { degreesOf, radiansOf } from '../../units/angle.ts';
import { mmOf } from '../../units/length.ts';
import { type EndAim, isMet, missAt } from '../turning/miss.ts';
import type { MoveChange } from '../move.ts';
import { changesOf } from '../offer/move-changes.ts';
import type { Touch } from '../ranking/move-cost.ts';
import type { MovePool } from '../ranking/move-pool.ts';
import { tubeAddedMm } from '../ranking/move-pool.ts';
import { type NewBend, newBends, nextClocking } from '../problem/new-bends.ts';
import { roundToSaw } from '../offer/saw-steps.ts';
import { settleEnd } from '../turning/settle.ts';
import { bendNeed, straightNeed } from '../ranking/stock-needs.ts';
import type { Variable } from '../problem/variables.ts';

const LEAST_PAIR_DEG = 4;
const LARGEST_PAIR_DEG = 75;
const STARTS_RAD = [0, 1, 2, 3].map((quarter) => (quarter * Math.PI) / 2);
const START_ANGLE_RAD = radiansOf(20);
const MOST_ROUNDS = 12;

interface Place {
  readonly joint: number;
  readonly tangent: Vector;
  /** Towards the centre of the bend before, square to the tangent. */
  readonly normal: Vector;
  readonly touch: Touch;
  readonly nextDeg: number | null;
}

/**
 * Two bends of angle `a`, the second clocked 180, carry the rest of the tube `2 r sin a` along and `2 r (1 - cos a)` to the
 * side `phi` without turning it, and add `2 r a` of length. With two straights that makes four unknowns for the three of the
 * gap and the length, solved by Newton's method from four sides. Only where the direction of the end is right already.
 */
export function searchBendPairs(pool: MovePool, straights: readonly Variable[]): void {
  const { problem, aim } = pool;
  if ((problem.standing.closure?.tiltDeg ?? 0) > aim.ends.limits.tiltDeg) return;
  const lengths = straights.filter(({ kind }) => kind === 'length');
  for (let joint = 0; joint <= problem.pieces.length; joint += 1) {
    const place = placeAt(pool, joint);
    if (place === null) continue;
    for (const [i, first] of lengths.entries()) {
      for (const second of lengths.slice(i + 1)) {
        if (pool.shouldStop()) return;
        const key = pool.keyOf([first, second, place.touch]);
        if (!pool.isWorthWhile(key)) continue;
        for (const bend of newBends(problem)) tryPair(pool, { place, pair: [first, second], bend, key });
      }
    }
  }
}

function placeAt({ problem, aim }: MovePool, joint: number): Place | null {
  const frame = aim.ends.joints[joint];
  const next = nextClocking(problem, joint);
  if (frame === undefined || next === false || problem.jointStates[joint] === 'welded') return null;
  const touch: Touch = { demand: { kind: 'joint', joint }, isHeld: false, cuts: 2, adjusted: 0 };
  return { joint, tangent: frame.tangent, normal: frame.normal, touch, nextDeg: next?.presentDeg ?? null };
}

interface Trial {
  readonly place: Place;
  readonly pair: readonly [Variable, Variable];
  readonly bend: NewBend;
  readonly key: number;
}

function tryPair(pool: MovePool, trial: Trial): void {
  for (const start of STARTS_RAD) {
    const found = newton(pool, trial, start);
    if (found === null || degreesOf(found.angleRad) > Math.min(LARGEST_PAIR_DEG, trial.bend.largestDeg)) continue;
    if (offerRounded(pool, trial, found)) return;
  }
}

interface PairShape {
  readonly angleRad: number;
  readonly sideRad: number;
}

/** What the pair does to the rest of the tube. */
function pairShift({ tangent, normal }: Place, clrMm: number, { angleRad, sideRad }: PairShape): Vector {
  const aside = add(scale(normal, Math.cos(sideRad)), scale(cross(tangent, normal), Math.sin(sideRad)));
  return addScaled(scale(tangent, 2 * clrMm * Math.sin(angleRad)), aside, 2 * clrMm * (1 - Math.cos(angleRad)));
}

function newton({ problem, aim }: MovePool, { place, pair, bend }: Trial, startRad: number): PairShape | null {
  const clrMm = mmOf(bend.clr);
  const { tangent, normal } = place;
  const across = cross(tangent, normal);
  const gap = {
    x: aim.ends.end.point.x - aim.ends.wanted.point.x,
    y: aim.ends.end.point.y - aim.ends.wanted.point.y,
    z: aim.ends.end.point.z - aim.ends.wanted.point.z,
  };
  const [one, two] = pair.map(({ screw }) => screw.slide) as [Vector, Vector];
  let [angle, side, byOne, byTwo] = [START_ANGLE_RAD, startRad, 0, 0];
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const shift = pairShift(place, clrMm, { angleRad: angle, sideRad: side });
    const left = addScaled(addScaled(add(gap, shift), one, byOne), two, byTwo);
    const longMm =
      aim.window.presentMm - aim.window.aimMm + byOne + byTwo + 2 * clrMm * angle - 2 * problem.shrinkageMm;
    if (Math.abs(longMm) + Math.hypot(left.x, left.y, left.z) < 1e-6) {
      const isLong = [byOne, byTwo].every((by, i) => (pair[i] as Variable).present + by >= (pair[i] as Variable).low);
      return isLong && angle >= radiansOf(LEAST_PAIR_DEG) ? { angleRad: angle, sideRad: side } : null;
    }
    const aside = add(scale(normal, Math.cos(side)), scale(across, Math.sin(side)));
    const byAngle = addScaled(scale(tangent, 2 * clrMm * Math.cos(angle)), aside, 2 * clrMm * Math.sin(angle));
    const turned = add(scale(normal, -Math.sin(side)), scale(across, Math.cos(side)));
    const bySide = scale(turned, 2 * clrMm * (1 - Math.cos(angle)));
    const step = solveFour([byAngle, bySide, one, two], [2 * clrMm, 0, 1, 1], left, longMm);
    if (step === null) return null;
    angle = Math.min(1.6, Math.max(0.02, angle - Math.min(0.5, Math.max(-0.5, step[0]))));
    side -= Math.min(1, Math.max(-1, step[1]));
    byOne -= step[2];
    byTwo -= step[3];
    if (Math.abs(byOne) + Math.abs(byTwo) > 2000) return null;
  }
  return null;
}

type FourNumbers = readonly [number, number, number, number];

/** Solves columns (vector over length) times x = (left, longMm) by elimination with pivoting; null when singular. */
function solveFour(
  columns: readonly [Vector, Vector, Vector, Vector],
  lengths: FourNumbers,
  left: Vector,
  longMm: number,
): FourNumbers | null {
  const rows = (['x', 'y', 'z'] as const).map((axis) => [...columns.map((column) => column[axis]), left[axis]]);
  rows.push([...lengths, longMm]);
  for (let c = 0; c < 4; c += 1) {
    let pivot = c;
    for (let r = c + 1; r < 4; r += 1) {
      if (Math.abs(rows[r]?.[c] ?? 0) > Math.abs(rows[pivot]?.[c] ?? 0)) pivot = r;
    }
    const row = rows[pivot] as number[];
    if (Math.abs(row[c] as number) < 1e-6) return null;
    [rows[pivot], rows[c]] = [rows[c] as number[], row];
    for (let r = 0; r < 4; r += 1) {
      const other = rows[r] as number[];
      const by = r === c ? 0 : (other[c] as number) / (row[c] as number);
      if (by !== 0) for (let k = c; k < 5; k += 1) other[k] = (other[k] as number) - by * (row[k] as number);
    }
  }
  const x = rows.map((row, i) => (row[4] as number) / (row[i] as number));
  return [x[0] as number, x[1] as number, x[2] as number, x[3] as number];
}

/** Rounds the pair to half or to tenth degrees, lets the straights take up what that does, and rounds those. */
function offerRounded(pool: MovePool, trial: Trial, exact: PairShape): boolean {
  const { problem } = pool;
  const isOff = problem.options.rounding === 'none';
  for (const perDeg of isOff ? [1e6] : [2, 10]) {
    const round = (rad: number) => radiansOf(Math.round(degreesOf(rad) * perDeg) / perDeg);
    const shape = { angleRad: round(exact.angleRad), sideRad: round(exact.sideRad) };
    const aim = aimBehind(pool, trial, shape);
    const variables = trial.pair;
    const screws = variables.map(({ screw }) => screw);
    const low = variables.map((variable) => variable.low - variable.present);
    const high = variables.map((variable) => variable.high - variable.present);
    const { values, miss } = settleEnd(aim, screws, [0, 0], { low, high });
    if (!isMet(miss, aim)) continue;
    const settings = roundToSaw(aim, { variables, values }, { style: problem.header.settings.display, isOff });
    if (settings === null) continue;
    take(pool, trial, { shape, settings, aim });
    return true;
  }
  return false;
}

/** The aim with the pair already let in: it shifts the end and adds its length. */
function aimBehind({ aim, problem }: MovePool, { place, bend }: Trial, shape: PairShape): EndAim {
  const clrMm = mmOf(bend.clr);
  const { end } = aim.ends;
  const point = add(end.point, pairShift(place, clrMm, shape));
  const presentMm = aim.window.presentMm + 2 * clrMm * shape.angleRad - 2 * problem.shrinkageMm;
  return { ...aim, ends: { ...aim.ends, end: { ...end, point } }, window: { ...aim.window, presentMm } };
}

function take(
  pool: MovePool,
  { place, pair, bend, key }: Trial,
  {
    shape,
    settings,
    aim,
  }: {
    readonly shape: PairShape;
    readonly settings: NonNullable<ReturnType<typeof roundToSaw>>;
    readonly aim: EndAim;
  },
): void {
  const { problem } = pool;
  const { stock, tube } = problem;
  const round = (deg: number) => Number(deg.toFixed(6));
  const angleDeg = round(degreesOf(shape.angleRad));
  const clockingDeg = round(wrapDeg(degreesOf(shape.sideRad)));
  const nextClockingDeg = place.nextDeg === null ? null : wrapDeg(place.nextDeg - clockingDeg - 180);
  const change: MoveChange = {
    kind: 'bendPair',
    joint: place.joint,
    clr: bend.clr,
    angleDeg,
    clockingDeg,
    nextClockingDeg,
  };
  const isMoved = settings.filter(({ value }) => Math.abs(value) > 1e-6);
  const changes = changesOf(problem, isMoved);
  const at = changes.findIndex((other) => 'pieceIndex' in other && other.pieceIndex >= place.joint);
  const miss = missAt(
    aim,
    settings.map(({ variable }) => variable.screw),
    settings.map(({ value }) => value),
  );
  const needs =
    stock === null
      ? []
      : [
          ...isMoved.flatMap(({ value, length }) =>
            value > 0 && length !== null ? [straightNeed(stock, tube, mmOf(length))] : [],
          ),
          ...[1, 2].map(() => bendNeed(stock, tube, { clr: bend.clr, angleDeg })),
        ];
  pool.take({
    kind: 'bendPair',
    changes: at < 0 ? [...changes, change] : changes.toSpliced(at, 0, change),
    demands: [place.touch.demand, ...pair.map(({ demand }) => demand)],
    slots: [...pair.map(({ slot }) => slot), -1 - place.joint],
    key,
    tubeAddedMm: tubeAddedMm(problem, settings) + 2 * mmOf(bend.clr) * shape.angleRad,
    needs,
    offMm: Math.abs(miss.lengthMm - aim.window.aimMm),
  });
}
