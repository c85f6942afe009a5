/** Tubes whose bends have angles that are on the shelf, from tubes that lie near by. */

import { radiansOf } from '../../units/angle.ts';
import type { ReadyAngles } from '../offer/candidate.ts';
import { closeShape, shapeOf, valuesOf } from './close-shape.ts';
import { type LeastStraights, leastAt, type TubeEnds, type TubeShape } from './tube-shape.ts';

/** An angle that is farther off than this from a tube is sought from another one. */
const NEAR_RAD = radiansOf(12);

export interface NearQuestion {
  readonly ends: TubeEnds;
  readonly least: LeastStraights;
  readonly ready: ReadyAngles;
}

/** Limits of the figures of a tube with so many bends, in the order of `valuesOf`; no straight longer than `mostMm`. */
export function figureLimits(
  least: LeastStraights,
  bends: number,
  mostMm: number,
): { readonly low: Float64Array; readonly high: Float64Array } {
  const low = new Float64Array(3 * bends + 1);
  const high = new Float64Array(3 * bends + 1);
  for (let i = 0; i <= bends; i += 1) {
    low[3 * i] = leastAt(least, i, bends);
    high[3 * i] = mostMm;
    if (i === bends) break;
    low[3 * i + 1] = Number.NEGATIVE_INFINITY;
    high[3 * i + 1] = Number.POSITIVE_INFINITY;
    low[3 * i + 2] = LEAST_ANGLE_RAD;
    high[3 * i + 2] = Math.PI;
  }
  return { low, high };
}

/** A bend of less is hardly one: nobody saws and welds it. */
const LEAST_ANGLE_RAD = radiansOf(2);

/** None of its bends is less than one that is worth making. */
export function hasRealBends({ bends }: TubeShape): boolean {
  return bends.every(({ angleRad }) => angleRad >= LEAST_ANGLE_RAD);
}

/**
 * Tubes near those given in which as many bends as named have a ready angle, the others any: for each way to choose the angles the given tube
 * that comes nearest to them is closed anew with these held. With `lengthMm` null the length is let go, since of two bends
 * with both angles held only single tubes are left.
 */
export function withReadyAngles(
  question: NearQuestion,
  shapes: readonly TubeShape[],
  held: readonly boolean[],
  lengthMm: number | null,
): readonly TubeShape[] {
  const found: TubeShape[] = [];
  const [first] = shapes;
  if (first === undefined) return found;
  for (const angles of choicesOf(first, held, question.ready)) {
    const nearest = nearestTo(shapes, angles);
    const closed = nearest === null ? null : closedAt(question, nearest, angles, lengthMm);
    if (closed !== null) found.push(closed);
  }
  return found;
}

/**
 * The tube near this one with every angle held at the nearest ready one, or else with all but one of them, the worst fitting let go first; null where none of these
 * closes at the length.
 */
export function withNearestReady(question: NearQuestion, shape: TubeShape, lengthMm: number): TubeShape | null {
  const nearest = shape.bends.map(({ clrMm, angleRad }) => nearestReady(question.ready.get(clrMm) ?? [], angleRad));
  if (nearest.every((angle) => angle === null)) return null;
  const all = closedAt(question, shape, nearest, lengthMm);
  if (all !== null) return all;
  const offRad = (i: number) => Math.abs((nearest[i] ?? 0) - (shape.bends[i]?.angleRad ?? 0));
  const order = nearest.map((_, i) => i).sort((a, b) => offRad(b) - offRad(a));
  for (const free of order) {
    const closed = closedAt(question, shape, nearest.with(free, null), lengthMm);
    if (closed !== null) return closed;
  }
  return null;
}

/** Null where none is ready. */
function nearestReady(anglesDeg: readonly number[], angleRad: number): number | null {
  let nearest: number | null = null;
  for (const deg of anglesDeg) {
    const rad = radiansOf(deg);
    if (nearest === null || Math.abs(rad - angleRad) < Math.abs(nearest - angleRad)) nearest = rad;
  }
  return nearest;
}

type HeldAngles = readonly (number | null)[];

function choicesOf({ bends }: TubeShape, held: readonly boolean[], ready: ReadyAngles): readonly HeldAngles[] {
  let choices: readonly HeldAngles[] = [[]];
  for (const [i, { clrMm }] of bends.entries()) {
    const angles: HeldAngles = held[i] === true ? (ready.get(clrMm) ?? []).map(radiansOf) : [null];
    choices = choices.flatMap((before) => angles.map((angle) => [...before, angle]));
  }
  return choices;
}

function nearestTo(shapes: readonly TubeShape[], angles: HeldAngles): TubeShape | null {
  let nearest: TubeShape | null = null;
  let leastRad = NEAR_RAD;
  for (const shape of shapes) {
    let offRad = 0;
    for (const [i, angle] of angles.entries()) {
      if (angle !== null) offRad = Math.max(offRad, Math.abs(angle - (shape.bends[i]?.angleRad ?? 0)));
    }
    if (offRad < leastRad) [nearest, leastRad] = [shape, offRad];
  }
  return nearest;
}

/** The tube closed with some of its angles held. */
function closedAt(
  { ends, least }: NearQuestion,
  shape: TubeShape,
  angles: HeldAngles,
  lengthMm: number | null,
): TubeShape | null {
  const clrsMm = shape.bends.map(({ clrMm }) => clrMm);
  const { low, high } = figureLimits(least, clrsMm.length, Number.POSITIVE_INFINITY);
  for (const [i, angle] of angles.entries()) {
    if (angle === null) continue;
    low[3 * i + 2] = angle;
    high[3 * i + 2] = angle;
  }
  const values = closeShape({ ends, clrsMm, lengthMm, low, high }, valuesOf(shape));
  return values === null ? null : shapeOf(values, clrsMm);
}
