/** Tubes for one primary and one inlet that a header may be put together from; exact still, for only what is chosen is rounded. */

import type { Primary } from '../../header/header.ts';
import { placedPath } from '../../path/ends/inlet-pose.ts';
import { wrapDeg } from '../../path/vector.ts';
import { degreesOf } from '../../units/angle.ts';
import { millimetres, mmOf } from '../../units/length.ts';
import { twoBendsOfLength } from '../few/all-two-bends.ts';
import { oneBend, straightShape } from '../few/straight-and-one-bend.ts';
import { manyBends } from '../joints/many-bends.ts';
import { hasRealBends, withReadyAngles } from '../joints/near-angles.ts';
import { shapeLengthMm, type TubeShape } from '../joints/tube-shape.ts';
import { type Candidate, candidateOf, compareCandidates, type ReadyAngles, readyAngles } from '../offer/candidate.ts';
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

/** A straight and tubes of one bend, where port and inlet allow them at any length. */
export function fewBends(
  { ends, least, limits, clrs, mostBends }: ProposeProblem,
  lengthMm: number | null,
): readonly TubeShape[] {
  const question = { ends, least, roomMm: limits.gapMm };
  const straight = straightShape(question);
  const bent = mostBends < 1 ? [] : clrs.map((clr) => oneBend(question, mmOf(clr), lengthMm));
  return [straight, ...bent].filter((shape) => shape !== null).filter(hasRealBends);
}

/** Those of them that are as long as is wanted. */
function fewBendsOfLength(problem: ProposeProblem): readonly TubeShape[] {
  const isInWindow = (shape: TubeShape) => {
    const window = centrelineWindow(problem, shape.bends.length);
    const lengthMm = shapeLengthMm(shape);
    return window !== null && lengthMm >= window.lowMm && lengthMm <= window.highMm;
  };
  return fewBends(problem, newLengthMm(problem, 1)).filter(isInWindow);
}

/** Two bends of the length wanted, spread over all pairs of CLRs; those with a ready angle come after the rest of their pair. */
function* shapesOfTwo(problem: ProposeProblem): Generator<void, readonly TubeShape[]> {
  const { ends, least, clrs } = problem;
  const lengthMm = newLengthMm(problem, 2);
  if (lengthMm === null) return [];
  const clrsMm = clrs.map(mmOf);
  const ready = readyAngles(problem);
  const found: TubeShape[] = [];
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

/** Of the new centreline; null where what is kept is as long already. */
function newLengthMm(problem: ProposeProblem, bends: number): number | null {
  const lengthMm = centrelineWindow(problem, bends)?.aimMm ?? 0;
  return lengthMm > 0 ? lengthMm : null;
}

/** Tubes of three bends, or four; what was gathered once stays, and more starts go on from there. */
class ManyBendShapes {
  readonly #found: TubeShape[] = [];
  readonly #source: Generator<readonly TubeShape[], void> | null;
  #starts = 0;

  constructor(problem: ProposeProblem, bends: number) {
    const { ends, least, clrs } = problem;
    const lengthMm = newLengthMm(problem, bends);
    const question = { ends, least, clrsMm: clrs.map(mmOf), ready: readyAngles(problem), bends };
    this.#source = lengthMm === null ? null : manyBends({ ...question, lengthMm });
  }

  /** What so many starts come to. */
  *of(starts: number): Generator<void, readonly TubeShape[]> {
    for (; this.#source !== null && this.#starts < starts; this.#starts += 1) {
      this.#found.push(...(this.#source.next().value ?? []));
      if (this.#starts % STARTS_A_PAUSE === STARTS_A_PAUSE - 1) yield;
    }
    return this.#found;
  }
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

interface Judged {
  readonly tube: PooledTube;
  readonly candidate: Candidate;
}

/** The tubes of one primary with one inlet at one length. Each shape is looked at once, however often a pool of another size is asked for. */
export class TubePool {
  readonly #problem: ProposeProblem;
  readonly #collectorId: string | null;
  readonly #numbers: () => number;
  readonly #surroundings: Surroundings;
  readonly #ready: ReadyAngles;
  /** Null: it comes too near to something. */
  readonly #judged = new Map<TubeShape, Judged | null>();
  readonly #three: ManyBendShapes;
  readonly #four: ManyBendShapes;
  #few: readonly TubeShape[] | null = null;
  #two: readonly TubeShape[] | null = null;

  /** `numbers` gives each tube its own number. */
  constructor(problem: ProposeProblem, collectorId: string | null, numbers: () => number) {
    this.#problem = problem;
    this.#collectorId = collectorId;
    this.#numbers = numbers;
    this.#surroundings = new Surroundings(problem);
    this.#ready = readyAngles(problem);
    this.#three = new ManyBendShapes(problem, 3);
    this.#four = new ManyBendShapes(problem, 4);
  }

  /** The largest gap left by a tube that was too tight; null where none was. */
  get tightestBestMm(): number | null {
    return this.#surroundings.tightestBestMm;
  }

  /** What keeps clear of all that stands there already and of itself, in the order of proposals. */
  *of({ three, four }: PoolSize): Generator<void, readonly PooledTube[]> {
    const { mostBends } = this.#problem;
    this.#few ??= fewBendsOfLength(this.#problem);
    if (mostBends >= 2) this.#two ??= thinned(yield* shapesOfTwo(this.#problem), MOST_OF_TWO);
    const shapes = [...this.#few, ...(this.#two ?? [])];
    if (three > 0 && mostBends >= 3) shapes.push(...thinned(yield* this.#three.of(three), MOST_OF_MORE));
    if (four > 0 && mostBends >= 4) shapes.push(...thinned(yield* this.#four.of(four), MOST_OF_MORE));
    const pool: Judged[] = [];
    for (const shape of shapes) {
      let judged = this.#judged.get(shape);
      if (judged === undefined) {
        judged = this.#judge(shape);
        this.#judged.set(shape, judged);
        if (this.#judged.size % STARTS_A_PAUSE === 0) yield;
      }
      if (judged !== null) pool.push(judged);
    }
    return pool.sort((a, b) => compareCandidates(a.candidate, b.candidate)).map(({ tube }) => tube);
  }

  #judge(shape: TubeShape): Judged | null {
    const problem = this.#problem;
    const candidate = candidateOf(problem, this.#ready, unrounded(shape), null);
    if (this.#surroundings.gapLeft(candidate) === null) return null;
    const pieces = piecesOf(problem, candidate.shape, () => 'new');
    const cloud = cloudOf(primaryWith(problem, pieces), mmOf(problem.tube.od), this.#collectorId);
    if (cloud === null) return null;
    return { tube: { problem, shape, bends: candidate.bends, cloud, number: this.#numbers() }, candidate };
  }
}

function cloudOf(primary: Primary, odMm: number, collectorId: string | null): TubeCloud | null {
  const path = placedPath(primary);
  return path.ok ? tubeCloud(path.value, odMm, collectorId) : null;
}
