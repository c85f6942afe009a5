/** A pair of bends let in at a joint, which steps the tube aside, with two straights to take up the rest. */

import { add, addScaled, cross, scale, type Vector, wrapDeg } from '../../path/vector.ts';
import { degreesOf, radiansOf } from '../../units/angle.ts';
import { mmOf } from '../../units/length.ts';
import type { MoveChange } from '../move.ts';
import { changesOf } from '../offer/move-changes.ts';
import { roundToSaw } from '../offer/saw-steps.ts';
import { type NewBend, newBends, nextClocking } from '../problem/new-bends.ts';
import type { Setting } from '../problem/setting.ts';
import { touchOf, type Variable, valueLimits } from '../problem/variable.ts';
import { stockNeeds, tubeAddedMm } from '../ranking/candidate.ts';
import type { Touch } from '../ranking/cost-tally.ts';
import { bendNeed } from '../ranking/stock-needs.ts';
import { keyOf, type Search } from '../search.ts';
import { type Aim, isMet, missAt } from '../turning/miss.ts';
import { settle } from '../turning/settle.ts';
import { solveFour } from '../turning/solve-four.ts';

const LEAST_PAIR_DEG = 4;
const LARGEST_PAIR_DEG = 75;
const STARTS_RAD = [0, 1, 2, 3].map((quarter) => (quarter * Math.PI) / 2);
const START_ANGLE_RAD = radiansOf(20);
const MOST_ROUNDS = 12;

/** Where the pair would be let in. */
interface Opening {
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
export function* searchBendPairs(search: Search, straights: readonly Variable[]): Generator<void, void> {
  const { problem, aim, best } = search;
  if ((problem.standing.closure?.tiltDeg ?? 0) > aim.ends.limits.tiltDeg) return;
  const lengths = straights.filter(({ kind }) => kind === 'length');
  for (let joint = 0; joint <= problem.pieces.length; joint += 1) {
    const opening = openingAt(search, joint);
    if (opening === null) continue;
    for (const [i, first] of lengths.entries()) {
      for (const second of lengths.slice(i + 1)) {
        const key = keyOf(search, [first, second, opening.touch]);
        for (const bend of newBends(problem)) {
          yield;
          if (best.isWorthWhile(key)) tryPair(search, { opening, pair: [first, second], bend });
        }
      }
    }
  }
}

function openingAt({ problem, aim }: Search, joint: number): Opening | null {
  const frame = aim.ends.joints[joint];
  const next = nextClocking(problem, joint);
  if (frame === undefined || next === false || problem.jointStates[joint] === 'welded') return null;
  const touch: Touch = { demand: { kind: 'joint', joint, more: 2 }, isHeld: false, cuts: 2, adjusted: 0, bends: 2 };
  return { joint, tangent: frame.tangent, normal: frame.normal, touch, nextDeg: next?.presentDeg ?? null };
}

interface Trial {
  readonly opening: Opening;
  readonly pair: readonly [Variable, Variable];
  readonly bend: NewBend;
}

function tryPair(search: Search, trial: Trial): void {
  for (const start of STARTS_RAD) {
    const found = newton(search, trial, start);
    if (found === null || degreesOf(found.angleRad) > Math.min(LARGEST_PAIR_DEG, trial.bend.largestDeg)) continue;
    if (offerRounded(search, trial, found)) return;
  }
}

interface PairShape {
  readonly angleRad: number;
  readonly sideRad: number;
}

/** What the pair does to the rest of the tube. */
function pairShift({ tangent, normal }: Opening, clrMm: number, { angleRad, sideRad }: PairShape): Vector {
  const aside = add(scale(normal, Math.cos(sideRad)), scale(cross(tangent, normal), Math.sin(sideRad)));
  return addScaled(scale(tangent, 2 * clrMm * Math.sin(angleRad)), aside, 2 * clrMm * (1 - Math.cos(angleRad)));
}

function newton({ problem, aim }: Search, { opening, pair, bend }: Trial, startRad: number): PairShape | null {
  const clrMm = mmOf(bend.clr);
  const { tangent, normal } = opening;
  const across = cross(tangent, normal);
  const gap = {
    x: aim.ends.end.point.x - aim.ends.wanted.point.x,
    y: aim.ends.end.point.y - aim.ends.wanted.point.y,
    z: aim.ends.end.point.z - aim.ends.wanted.point.z,
  };
  const [one, two] = pair.map(({ screw }) => screw.slide) as [Vector, Vector];
  let [angle, side, byOne, byTwo] = [START_ANGLE_RAD, startRad, 0, 0];
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const shift = pairShift(opening, clrMm, { angleRad: angle, sideRad: side });
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

/** Rounds the pair to half or to tenth degrees, lets the straights take up what that does, and rounds those. */
function offerRounded(search: Search, trial: Trial, exact: PairShape): boolean {
  const { problem } = search;
  const isOff = problem.rounding === 'none';
  for (const perDeg of isOff ? [1e6] : [2, 10]) {
    const round = (rad: number) => radiansOf(Math.round(degreesOf(rad) * perDeg) / perDeg);
    const shape = { angleRad: round(exact.angleRad), sideRad: round(exact.sideRad) };
    const aim = aimBehind(search, trial, shape);
    const variables = trial.pair;
    const screws = variables.map(({ screw }) => screw);
    const { values, miss } = settle(aim, screws, [0, 0], valueLimits(variables));
    if (!isMet(miss, aim)) continue;
    const settings = roundToSaw(aim, { variables, values }, { style: problem.header.settings.display, isOff });
    if (settings === null) continue;
    take(search, trial, { shape, settings, aim });
    return true;
  }
  return false;
}

/** The aim with the pair already let in: it shifts the end and adds its length. */
function aimBehind({ aim, problem }: Search, { opening, bend }: Trial, shape: PairShape): Aim {
  const clrMm = mmOf(bend.clr);
  const { end } = aim.ends;
  const point = add(end.point, pairShift(opening, clrMm, shape));
  const presentMm = aim.window.presentMm + 2 * clrMm * shape.angleRad - 2 * problem.shrinkageMm;
  return { ...aim, ends: { ...aim.ends, end: { ...end, point } }, window: { ...aim.window, presentMm } };
}

interface Rounded {
  readonly shape: PairShape;
  readonly settings: readonly Setting[];
  readonly aim: Aim;
}

function take(search: Search, trial: Trial, { shape, settings, aim }: Rounded): void {
  const { problem, best } = search;
  const { stock, tube } = problem;
  const { opening } = trial;
  const change = changeOf(trial, shape);
  const { clr, angleDeg } = change;
  const isMoved = settings.filter(({ value }) => Math.abs(value) > 1e-6);
  const changes = changesOf(problem, isMoved);
  const at = changes.findIndex((other) => 'pieceIndex' in other && other.pieceIndex >= opening.joint);
  const miss = missAt(
    aim,
    settings.map(({ variable }) => variable.screw),
    settings.map(({ value }) => value),
  );
  const pairNeeds = stock === null ? [] : [1, 2].map(() => bendNeed(stock, tube, { clr, angleDeg }));
  const touches = isMoved.map(({ variable, value }) => touchOf(variable, value));
  best.take({
    kind: 'bendPair',
    changes: at < 0 ? [...changes, change] : changes.toSpliced(at, 0, change),
    demands: [opening.touch.demand, ...touches.map(({ demand }) => demand)],
    slots: [...isMoved.map(({ variable }) => variable.slot), -1 - opening.joint],
    key: keyOf(search, [opening.touch, ...touches]),
    tubeAddedMm: tubeAddedMm(problem, settings) + 2 * mmOf(clr) * shape.angleRad,
    needs: [...stockNeeds(problem, isMoved), ...pairNeeds],
    offMm: Math.abs(miss.lengthMm - aim.window.aimMm),
  });
}

function changeOf({ opening, bend }: Trial, shape: PairShape): Extract<MoveChange, { readonly kind: 'bendPair' }> {
  const round = (deg: number) => Number(deg.toFixed(6));
  const clockingDeg = round(wrapDeg(degreesOf(shape.sideRad)));
  return {
    kind: 'bendPair',
    joint: opening.joint,
    clr: bend.clr,
    angleDeg: round(degreesOf(shape.angleRad)),
    clockingDeg,
    nextClockingDeg: opening.nextDeg === null ? null : wrapDeg(opening.nextDeg - clockingDeg - 180),
  };
}
