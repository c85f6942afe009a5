/** Tubes of three and four bends, from starts that are the same every time. */

import { fixedRandom } from '../../moves/kinds/samples.ts';
import { distance } from '../../path/vector.ts';
import { radiansOf } from '../../units/angle.ts';
import type { ReadyAngles } from '../offer/candidate.ts';
import { closeShape, shapeOf } from './close-shape.ts';
import { figureLimits, withNearestReady } from './near-angles.ts';
import { type LeastStraights, leastAt, type TubeEnds, type TubeShape } from './tube-shape.ts';

export interface ManyBendQuestion {
  readonly ends: TubeEnds;
  readonly least: LeastStraights;
  readonly clrsMm: readonly number[];
  readonly ready: ReadyAngles;
  readonly bends: number;
  /** Of the new centreline, mm. */
  readonly lengthMm: number;
}

/** Whole turns of the tightest bend that are added to the first guess, one length after another: an inlet behind its port takes two bends of 180 and the way back. */
const MORE_TURNS = [0, 1, 2];

/** Where no length is wanted and two bends do not do: a quarter more than the straight way, then longer; mm of the new centreline. */
export function guessedLengthsMm({ start, wanted }: TubeEnds, clrsMm: readonly number[]): readonly number[] {
  const firstMm = 1.25 * distance(start.point, wanted.point) + 100;
  return MORE_TURNS.map((turns) => firstMm + turns * 2 * Math.PI * Math.min(...clrsMm));
}

/** Angles that starts are drawn from. */
const FROM_RAD = radiansOf(15);
const TO_RAD = radiansOf(135);

/**
 * Tubes of three or four bends that end in the inlet at a length: of each start the tubes that it comes to, those with ready angles first; none for most
 * starts where the poses lie awkwardly.
 *
 * In joint space: n + 1 straights, n clockings and n angles, against six equations (three of the gap, two of the tilt, one of the length),
 * see `closeShape`. Starts share the length wanted out among the straights at random and turn the bends any way, from a fixed seed, so that the same
 * question has the same answer; of header-like poses every second start comes to a tube. Three bends with their angles held still have
 * seven figures for six equations, so from each tube one is sought whose angles are the nearest ready ones (`withNearestReady`).
 */
export function* manyBends(question: ManyBendQuestion): Generator<readonly TubeShape[], void> {
  const { ends, lengthMm, least, bends } = question;
  const random = fixedRandom();
  const { low, high } = figureLimits(least, bends, lengthMm);
  for (;;) {
    const clrsMm = Array.from({ length: bends }, () => drawn(random, question.clrsMm));
    const closed = closeShape({ ends, clrsMm, lengthMm, low, high }, startValues(question, clrsMm, random));
    if (closed === null) yield [];
    else {
      const shape = shapeOf(closed, clrsMm);
      const ready = withNearestReady(question, shape, lengthMm);
      yield ready === null ? [shape] : [ready, shape];
    }
  }
}

function drawn(random: () => number, clrsMm: readonly number[]): number {
  return clrsMm[Math.floor(random() * clrsMm.length)] ?? 0;
}

function startValues(
  { bends, lengthMm, least }: ManyBendQuestion,
  clrsMm: readonly number[],
  random: () => number,
): Float64Array {
  const values = new Float64Array(3 * bends + 1);
  let arcsMm = 0;
  for (const [i, clrMm] of clrsMm.entries()) {
    const angleRad = FROM_RAD + (TO_RAD - FROM_RAD) * random();
    values[3 * i + 1] = Math.PI * (2 * random() - 1);
    values[3 * i + 2] = angleRad;
    arcsMm += clrMm * angleRad;
  }
  const shares = Array.from({ length: bends + 1 }, () => random() + 0.1);
  const sum = shares.reduce((total, share) => total + share, 0);
  for (const [i, share] of shares.entries()) {
    values[3 * i] = Math.max(leastAt(least, i, bends), ((lengthMm - arcsMm) * share) / sum);
  }
  return values;
}
