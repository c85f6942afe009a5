/** One whole search for proposals: no bend and one, two bends along their whole family, then three and four where two are not enough. */

import { shortestTwoBends, twoBendsOfLength } from './few/all-two-bends.ts';
import { oneBend, straightShape } from './few/straight-and-one-bend.ts';
import { guessedLengthsMm, manyBends } from './joints/many-bends.ts';
import { hasRealBends, withReadyAngles } from './joints/near-angles.ts';
import { shapeLengthMm, type TubeShape } from './joints/tube-shape.ts';
import type { ProposeSearch } from './search.ts';

/** Ideas that are enough to choose from: with so many found, more bends are not looked at. */
const ENOUGH_IDEAS = 3;
/** Tubes of one pair of CLRs that are rounded where there is nothing to keep clear of: any of them serves as well as the next. */
const ENOUGH_OF_PAIR = 4;
/** Where the shortest is wanted, tubes are looked for that are longer than the least by so many mm, since a straight can only be rounded up. */
const OVER_LEAST_MM = [0.5, 2, 5, 12];
/** Starts for three and for four bends where nothing was found yet, and where there is something to choose from already. */
const STARTS = 700;
const FEW_STARTS = 60;

/** Runs to its end, pausing (by yielding) every millisecond or so; what it found lies in the search at any pause. */
export function* searchProposals(search: ProposeSearch): Generator<void, void> {
  const { mostBends } = search.problem;
  yield* searchFewBends(search);
  if (mostBends >= 2) yield* searchTwoBends(search);
  for (const bends of [3, 4]) {
    if (mostBends >= bends && search.best.count < ENOUGH_IDEAS) yield* searchManyBends(search, bends);
  }
  yield* searchCoarse(search);
}

function* searchFewBends(search: ProposeSearch): Generator<void, void> {
  const { ends, least, limits, mostBends } = search.problem;
  const question = { ends, least, roomMm: limits.gapMm };
  const straight = straightShape(question);
  const bent =
    mostBends < 1 ? [] : search.clrsMm.map((clrMm) => oneBend(question, clrMm, search.window(1)?.aimMm ?? null));
  for (const shape of [straight, ...bent]) if (shape !== null) yield* enterOnFirst(search, [shape], 1);
}

/** Takes tubes in on the coarsest grid on which any of them closes. */
function* enterOnFirst(search: ProposeSearch, shapes: readonly TubeShape[], enough: number): Generator<void, void> {
  for (const step of search.steps) {
    let entered = 0;
    for (const shape of shapes) {
      if (search.enter(shape, step)) entered += 1;
      yield;
      if (entered >= enough) return;
    }
    if (entered > 0) return;
  }
}

function* searchTwoBends(search: ProposeSearch): Generator<void, void> {
  const { ends, least } = search.problem;
  const window = search.window(2);
  for (const first of search.clrsMm) {
    for (const second of search.clrsMm) {
      const question = { ends, least, clrsMm: [first, second] as const };
      const shortest = window === null ? shortestTwoBends(question) : null;
      const lengths = shortest === null ? [] : OVER_LEAST_MM.map((overMm) => shapeLengthMm(shortest) + overMm);
      for (const lengthMm of window === null ? lengths : [window.aimMm]) {
        const shapes = twoBendsOfLength(question, lengthMm).filter(hasRealBends);
        yield;
        yield* enterTwoBends(search, shapes, lengthMm);
      }
    }
  }
}

/** Those with ready angles first: they go before all others of the same pair. Both can have them only where the length gives way. */
function* enterTwoBends(search: ProposeSearch, shapes: readonly TubeShape[], lengthMm: number): Generator<void, void> {
  const { ends, least } = search.problem;
  const near = { ends, least, ready: search.ready };
  const window = search.window(2);
  const isInWindow = (shape: TubeShape) => {
    const mm = shapeLengthMm(shape);
    return window !== null && mm >= window.lowMm && mm <= window.highMm;
  };
  const both = withReadyAngles(near, shapes, [true, true], null).filter(isInWindow);
  const one = [
    ...withReadyAngles(near, shapes, [true, false], lengthMm),
    ...withReadyAngles(near, shapes, [false, true], lengthMm),
  ];
  const enough = search.surroundings.hasOthers ? Number.POSITIVE_INFINITY : ENOUGH_OF_PAIR;
  for (const some of [both, one, shapes]) if (some.length > 0) yield* enterOnFirst(search, some, enough);
}

/** Starts between two pauses. */
const STARTS_A_PAUSE = 8;

function* searchManyBends(search: ProposeSearch, bends: number): Generator<void, void> {
  const aimMm = search.window(bends)?.aimMm;
  for (const lengthMm of aimMm === undefined ? guessedLengthsMm(search.problem.ends, search.clrsMm) : [aimMm]) {
    yield* searchManyBendsAt(search, bends, lengthMm);
    if (search.best.count > 0) return;
  }
}

function* searchManyBendsAt(search: ProposeSearch, bends: number, lengthMm: number): Generator<void, void> {
  const { ends, least } = search.problem;
  const { clrsMm, ready, best } = search;
  const starts = best.count > 0 ? FEW_STARTS : STARTS;
  let start = 0;
  for (const shapes of manyBends({ ends, least, clrsMm, ready, bends, lengthMm })) {
    for (const shape of shapes) if (hasRealBends(shape)) yield* enterOnFirst(search, [shape], 1);
    start += 1;
    if (start >= starts || (best.count >= ENOUGH_IDEAS && start >= FEW_STARTS)) return;
    if (start % STARTS_A_PAUSE === 0) yield;
  }
}

/** Places in the window, as parts of it, besides the length wanted. */
const WITHIN_WINDOW = [1 / 3, 2 / 3, 1 / 6, 5 / 6];
/** Starts of three bends for one that rounds on the coarsest grid. */
const COARSE_STARTS = 60;

/**
 * Where all that was found takes a finer grid: more tubes, until one rounds on the coarsest. Two bends at other lengths of the window first, which are other tubes all along the
 * family; then three bends, whose fourth straight makes up for what the angles lose.
 */
function* searchCoarse(search: ProposeSearch): Generator<void, void> {
  const [coarsest] = search.steps;
  const { best, problem } = search;
  if (coarsest === undefined || best.count === 0) return;
  for (const shape of moreTubes(search)) {
    if (best.hasCoarse) return;
    if (shape !== null && hasRealBends(shape)) search.enter(shape, coarsest);
    yield;
  }
  const window = search.window(3);
  if (window === null || problem.mostBends < 3) return;
  const { ends, least } = problem;
  const { clrsMm, ready } = search;
  let start = 0;
  for (const shapes of manyBends({ ends, least, clrsMm, ready, bends: 3, lengthMm: window.aimMm })) {
    if (best.hasCoarse || start >= COARSE_STARTS) return;
    for (const shape of shapes) if (hasRealBends(shape)) search.enter(shape, coarsest);
    start += 1;
    yield;
  }
}

/** Null now and then, for a pause. */
function* moreTubes(search: ProposeSearch): Generator<TubeShape | null, void> {
  const { ends, least, mostBends } = search.problem;
  const window = search.window(2);
  if (window === null || mostBends < 2) return;
  for (const part of WITHIN_WINDOW) {
    const lengthMm = window.lowMm + part * (window.highMm - window.lowMm);
    for (const first of search.clrsMm) {
      for (const second of search.clrsMm) {
        yield null;
        yield* twoBendsOfLength({ ends, least, clrsMm: [first, second] }, lengthMm);
      }
    }
  }
}
