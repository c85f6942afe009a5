/** Tubes for one primary and one inlet that a header may be put together from; exact still, for only what is chosen is rounded. */

import type { Primary } from '../../header/header.ts';
import { placedPath } from '../../path/ends/inlet-pose.ts';
import { wrapDeg } from '../../path/vector.ts';
import { degreesOf } from '../../units/angle.ts';
import { millimetres, mmOf } from '../../units/length.ts';
import { twoBendsOfLength } from '../few/all-two-bends.ts';
import { manyBends } from '../joints/many-bends.ts';
import { hasRealBends, withReadyAngles } from '../joints/near-angles.ts';
import { shapeLengthMm, type TubeShape } from '../joints/tube-shape.ts';
import { candidateOf, compareCandidates, readyAngles } from '../offer/candidate.ts';
import { piecesOf, primaryWith } from '../offer/pieces-of.ts';
import type { RoundedShape } from '../offer/round-shape.ts';
import { Surroundings } from '../offer/surroundings.ts';
import { centrelineWindow } from '../problem/centreline.ts';
import type { ProposeProblem } from '../problem/propose-problem.ts';
import { type TubeCloud, tubeCloud } from './tube-cloud.ts';

export interface PooledTube {
  readonly problem: ProposeProblem;
  readonly shape: TubeShape;
  readonly bends: number;
  readonly cloud: TubeCloud;
  /** Its own among all tubes of a search. */
  readonly number: number;
}

/** How many starts are made for three and for four bends. */
export interface PoolSize {
  readonly three: number;
  readonly four: number;
}

/** Of one number of bends and length, spread over all CLRs; `starts` for three and four. */
function* shapesOf(problem: ProposeProblem, bends: number, starts: number): Generator<void, readonly TubeShape[]> {
  const { ends, least, clrs } = problem;
  const lengthMm = centrelineWindow(problem, bends)?.aimMm;
  if (lengthMm === undefined || lengthMm <= 0) return [];
  const clrsMm = clrs.map(mmOf);
  const ready = readyAngles(problem);
  const found: TubeShape[] = [];
  if (bends === 2) {
    for (const first of clrsMm) {
      for (const second of clrsMm) {
        const shapes = twoBendsOfLength({ ends, least, clrsMm: [first, second] }, lengthMm);
        yield;
        found.push(...shapes);
        for (const held of [
          [true, false],
          [false, true],
        ]) {
          found.push(...withReadyAngles({ ends, least, ready }, shapes, held, lengthMm));
        }
        yield;
      }
    }
    return found;
  }
  let start = 0;
  for (const shapes of manyBends({ ends, least, clrsMm, ready, bends, lengthMm })) {
    if (start >= starts) break;
    start += 1;
    found.push(...shapes);
    if (start % STARTS_A_PAUSE === 0) yield;
  }
  return found;
}

const STARTS_A_PAUSE = 8;
/** Tubes of one primary and inlet with two bends, and with three and four: neighbours along a family are alike. */
const MOST_OF_TWO = 40;
const MOST_OF_MORE = 200;

/** So many at most, evenly out of all. */
function thinned(shapes: readonly TubeShape[], most: number): readonly TubeShape[] {
  const real = shapes.filter(hasRealBends);
  if (real.length <= most) return real;
  return Array.from({ length: most }, (_, i) => real[Math.floor((i * real.length) / most)] as TubeShape);
}

/** As exact as it is, in the form of a rounded one. */
function unrounded(shape: TubeShape): RoundedShape {
  return {
    straights: shape.straightsMm.map(millimetres),
    bends: shape.bends.map(({ clrMm, angleRad, clockingRad }) => ({
      clrMm,
      angleDeg: degreesOf(angleRad),
      clockingDeg: wrapDeg(degreesOf(clockingRad)),
    })),
    lengthMm: shapeLengthMm(shape),
  };
}

/** What keeps clear of all that stands there already and of itself, in the order of proposals. `numbers` gives each its own number. */
export function* poolOf(
  problem: ProposeProblem,
  collectorId: string | null,
  { three, four }: PoolSize,
  numbers: () => number,
): Generator<void, readonly PooledTube[]> {
  const { mostBends } = problem;
  const shapes = mostBends < 2 ? [] : [...thinned(yield* shapesOf(problem, 2, 0), MOST_OF_TWO)];
  if (three > 0 && mostBends >= 3) shapes.push(...thinned(yield* shapesOf(problem, 3, three), MOST_OF_MORE));
  if (four > 0 && mostBends >= 4) shapes.push(...thinned(yield* shapesOf(problem, 4, four), MOST_OF_MORE));
  const surroundings = new Surroundings(problem);
  const ready = readyAngles(problem);
  const odMm = mmOf(problem.tube.od);
  const pool: { readonly tube: PooledTube; readonly candidate: ReturnType<typeof candidateOf> }[] = [];
  for (const [i, shape] of shapes.entries()) {
    if (i % STARTS_A_PAUSE === 0) yield;
    const candidate = candidateOf(problem, ready, unrounded(shape), null);
    if (surroundings.gapLeft(candidate) === null) continue;
    const cloud = cloudOf(
      primaryWith(
        problem,
        piecesOf(problem, candidate.shape, () => 'new'),
      ),
      odMm,
      collectorId,
    );
    if (cloud === null) continue;
    pool.push({ tube: { problem, shape, bends: candidate.bends, cloud, number: numbers() }, candidate });
  }
  return pool.sort((a, b) => compareCandidates(a.candidate, b.candidate)).map(({ tube }) => tube);
}

function cloudOf(primary: Primary, odMm: number, collectorId: string | null): TubeCloud | null {
  const path = placedPath(primary);
  return path.ok ? tubeCloud(path.value, odMm, collectorId) : null;
}
