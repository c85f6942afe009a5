/** Which lengths a port and an inlet can have at all. */

import { mmOf } from '../../units/length.ts';
import { shortestTwoBends, twoBendsOfLength } from '../few/all-two-bends.ts';
import { oneBend, straightShape } from '../few/straight-and-one-bend.ts';
import { manyBends } from '../joints/many-bends.ts';
import { hasRealBends } from '../joints/near-angles.ts';
import { shapeLengthMm } from '../joints/tube-shape.ts';
import type { ReadyAngles } from '../offer/candidate.ts';
import type { LengthRange } from '../outcome.ts';
import { centrelineMm, weldedMm } from '../problem/centreline.ts';
import type { ProposeProblem } from '../problem/propose-problem.ts';

/** Lengths looked at, evenly over the range asked about. */
const PLACES = 60;
/** Halvings of a step between a length that exists and one that does not: of a step of 10 mm, 0.01 mm is left. */
const HALVINGS = 10;
/** Starts for one length of three bends before it counts as not there. */
const STARTS = 24;

function pairsOf({ clrs }: ProposeProblem): readonly (readonly [number, number])[] {
  const clrsMm = clrs.map(mmOf);
  return clrsMm.flatMap((first) => clrsMm.map((second) => [first, second] as const));
}

/** The least length of the whole primary as welded with two bends, one or none; null where there is none of these. */
export function* leastWelded(problem: ProposeProblem): Generator<void, number | null> {
  const { ends, least, limits } = problem;
  const lengths: number[] = [];
  const question = { ends, least, roomMm: limits.gapMm };
  const straight = straightShape(question);
  if (straight !== null) lengths.push(weldedMm(problem, shapeLengthMm(straight), 0));
  for (const clr of problem.clrs) {
    const bent = oneBend(question, mmOf(clr), null);
    if (bent !== null) lengths.push(weldedMm(problem, shapeLengthMm(bent), 1));
  }
  for (const clrsMm of pairsOf(problem)) {
    const shortest = shortestTwoBends({ ends, least, clrsMm });
    if (shortest !== null) lengths.push(weldedMm(problem, shapeLengthMm(shortest), 2));
    yield;
  }
  return lengths.length === 0 ? null : Math.min(...lengths);
}

/** Ranges of lengths as welded with two bends, from the least up to half as much again as that or the length wanted, whichever is more. */
export function* rangesNear(problem: ProposeProblem, leastMm: number | null): Generator<void, readonly LengthRange[]> {
  if (leastMm === null) return [];
  const toMm = 1.5 * Math.max(leastMm, problem.window?.aimMm ?? 0);
  return yield* rangesOfTwo(problem, leastMm, toMm);
}

/**
 * Ranges of lengths from `fromMm` to `toMm` that exist with two bends. Every so often a length is looked at along the whole of its family;
 * where it changes between two of them whether there is a tube, the edge is closed in on by halving. The least is solved for, not sampled.
 */
export function* rangesOfTwo(
  problem: ProposeProblem,
  fromMm: number,
  toMm: number,
): Generator<void, readonly LengthRange[]> {
  const { ends, least } = problem;
  const pairs = pairsOf(problem);
  function* exists(lengthMm: number): Generator<void, boolean> {
    const newMm = centrelineMm(problem, lengthMm, 2);
    if (newMm <= 0) return false;
    for (const clrsMm of pairs) {
      const isThere = twoBendsOfLength({ ends, least, clrsMm }, newMm).some(hasRealBends);
      yield;
      if (isThere) return true;
    }
    return false;
  }
  return yield* rangesWhere(exists, fromMm, toMm);
}

/** The same with three bends: found by descent from starts that are the same every time, so that a length that exists may be left out. */
export function* rangesOfThree(
  problem: ProposeProblem,
  fromMm: number,
  toMm: number,
): Generator<void, readonly LengthRange[]> {
  const { ends, least, clrs } = problem;
  const ready: ReadyAngles = new Map();
  const clrsMm = clrs.map(mmOf);
  function* exists(welded: number): Generator<void, boolean> {
    const lengthMm = centrelineMm(problem, welded, 3);
    if (lengthMm <= 0) return false;
    let start = 0;
    for (const shapes of manyBends({ ends, least, clrsMm, ready, bends: 3, lengthMm })) {
      if (shapes.length > 0) return true;
      start += 1;
      if (start >= STARTS) return false;
      if (start % STARTS_A_PAUSE === 0) yield;
    }
    return false;
  }
  return yield* rangesWhere(exists, fromMm, toMm);
}

/** Starts between two pauses. */
const STARTS_A_PAUSE = 4;

/** Whether a length exists, with pauses while that is looked at. */
type Exists = (lengthMm: number) => Generator<void, boolean>;

function* rangesWhere(exists: Exists, fromMm: number, toMm: number): Generator<void, readonly LengthRange[]> {
  const ranges: LengthRange[] = [];
  let lowMm: number | null = null;
  let beforeMm = fromMm;
  for (let place = 0; place <= PLACES; place += 1) {
    const mm = fromMm + ((toMm - fromMm) * place) / PLACES;
    const isThere = yield* exists(mm);
    yield;
    if (isThere && lowMm === null) lowMm = place === 0 ? mm : yield* edgeBetween(exists, mm, beforeMm);
    if (!isThere && lowMm !== null) {
      ranges.push({ lowMm, highMm: yield* edgeBetween(exists, beforeMm, mm) });
      lowMm = null;
    }
    beforeMm = mm;
  }
  if (lowMm !== null) ranges.push({ lowMm, highMm: Number.POSITIVE_INFINITY });
  return ranges;
}

/** The farthest length towards `gone` that was found to exist. */
function* edgeBetween(exists: Exists, there: number, gone: number): Generator<void, number> {
  let [inside, outside] = [there, gone];
  for (let halving = 0; halving < HALVINGS; halving += 1) {
    const middle = (inside + outside) / 2;
    if (yield* exists(middle)) inside = middle;
    else outside = middle;
  }
  return inside;
}
