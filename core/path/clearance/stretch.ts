/** Stretches of a centreline that can be halved, each wrapped in a capsule: what the search for the least distance works on. */

import { degreesOf } from '../../units/angle.ts';
import type { ArcSpan, LineSpan, Span, TubePath } from '../trace-primary.ts';
import { addScaled, angleBetweenRad, type Vector } from '../vector.ts';

/**
 * Part of one span, from `fromMm` to `toMm` along it. Every point of it is within `slackMm` of the straight core from
 * `coreStart` to `coreEnd`, and within `reachMm` of `middle`.
 */
export interface Stretch {
  readonly span: Span;
  readonly fromMm: number;
  readonly toMm: number;
  /** Ends of the stretch that this one was halved out of, along the span: a nearest point may slide that far while it settles. */
  readonly rootFromMm: number;
  readonly rootToMm: number;
  readonly coreStart: Vector;
  readonly coreEnd: Vector;
  readonly slackMm: number;
  readonly start: Vector;
  readonly middle: Vector;
  readonly end: Vector;
  readonly reachMm: number;
  /** Degrees that the tube has turned from the port to the two ends of the stretch. */
  readonly turnedFromDeg: number;
  readonly turnedToDeg: number;
  /** Both halves, worked out when first asked for and kept: a tube is held against many others. Null until then. */
  halves: readonly [Stretch, Stretch] | null;
}

type StretchRange = Pick<Stretch, 'fromMm' | 'toMm' | 'rootFromMm' | 'rootToMm' | 'turnedFromDeg' | 'turnedToDeg'>;

/** The two ends of a stretch, and its middle, as points. */
interface StretchPoints {
  readonly start: Vector;
  readonly middle: Vector;
  readonly end: Vector;
}

/**
 * An arc turning by `a` bulges `s = r (1 - cos(a/2))` beyond its chord. With the chord moved outwards by s/2 the arc
 * lies within s/2 of it everywhere, for turns up to 180 degrees. Fields are listed one by one because this is the
 * innermost step of the search, and spreading objects took most of its time.
 */
function arcStretch(span: ArcSpan, range: StretchRange, points: StretchPoints): Stretch {
  const { clrMm, centre } = span;
  const { start, middle, end } = points;
  const quarterTurnRad = (range.toMm - range.fromMm) / clrMm / 4;
  const quarterSine = Math.sin(quarterTurnRad);
  const slackMm = clrMm * quarterSine * quarterSine;
  const shift = slackMm / clrMm;
  const shiftX = (middle.x - centre.x) * shift;
  const shiftY = (middle.y - centre.y) * shift;
  const shiftZ = (middle.z - centre.z) * shift;
  return {
    span,
    fromMm: range.fromMm,
    toMm: range.toMm,
    rootFromMm: range.rootFromMm,
    rootToMm: range.rootToMm,
    turnedFromDeg: range.turnedFromDeg,
    turnedToDeg: range.turnedToDeg,
    coreStart: { x: start.x + shiftX, y: start.y + shiftY, z: start.z + shiftZ },
    coreEnd: { x: end.x + shiftX, y: end.y + shiftY, z: end.z + shiftZ },
    slackMm,
    start,
    middle,
    end,
    reachMm: 2 * clrMm * Math.abs(quarterSine),
    halves: null,
  };
}

function lineStretch(span: LineSpan, range: StretchRange): Stretch {
  const { start, end } = span;
  const middle = addScaled(start, span.tangent, span.lengthMm / 2);
  const core = { coreStart: start, coreEnd: end, slackMm: 0 };
  return { span, ...range, ...core, start, middle, end, reachMm: span.lengthMm / 2, halves: null };
}

/** The two halves of an arc's stretch; lines are never halved, for their distances are exact. */
export function halvesOf(stretch: Stretch): readonly [Stretch, Stretch] {
  if (stretch.halves !== null) return stretch.halves;
  const span = stretch.span as ArcSpan;
  const { fromMm, toMm, rootFromMm, rootToMm, turnedFromDeg, turnedToDeg, start, middle, end } = stretch;
  const middleMm = (fromMm + toMm) / 2;
  const first = { fromMm, toMm: middleMm, rootFromMm, rootToMm, turnedFromDeg, turnedToDeg };
  const second = { fromMm: middleMm, toMm, rootFromMm, rootToMm, turnedFromDeg, turnedToDeg };
  stretch.halves = [
    arcStretch(span, first, { start, middle: arcPoint(span, (fromMm + middleMm) / 2), end: middle }),
    arcStretch(span, second, { start: middle, middle: arcPoint(span, (middleMm + toMm) / 2), end }),
  ];
  return stretch.halves;
}

/** The point of an arc `alongMm` from its start. */
export function arcPoint(span: ArcSpan, alongMm: number): Vector {
  const turn = alongMm / span.clrMm;
  const inward = -span.clrMm * Math.cos(turn);
  const onward = span.clrMm * Math.sin(turn);
  const { centre, normal, tangent } = span;
  return {
    x: centre.x + normal.x * inward + tangent.x * onward,
    y: centre.y + normal.y * inward + tangent.y * onward,
    z: centre.z + normal.z * inward + tangent.z * onward,
  };
}

/** All stretches of a path: lines whole, arcs in equal parts of at most `largestDeg` (not above 180). */
export function stretchesOf(path: TubePath, largestDeg: number): readonly Stretch[] {
  const stretches: Stretch[] = [];
  let turnedDeg = 0;
  let before: Span | null = null;
  for (const span of path.spans) {
    if (before !== null) turnedDeg += mitreDeg(before, span);
    before = span;
    const spanDeg = span.kind === 'arc' ? span.angleDeg : 0;
    const parts = span.kind === 'arc' ? Math.max(1, Math.ceil(spanDeg / largestDeg - 1e-9)) : 1;
    for (let part = 0; part < parts; part += 1) {
      const fromMm = (span.lengthMm * part) / parts;
      const toMm = (span.lengthMm * (part + 1)) / parts;
      const turnedFromDeg = turnedDeg + (spanDeg * part) / parts;
      const turnedToDeg = turnedDeg + (spanDeg * (part + 1)) / parts;
      const range = { fromMm, toMm, rootFromMm: fromMm, rootToMm: toMm, turnedFromDeg, turnedToDeg };
      stretches.push(span.kind === 'arc' ? wholeArc(span, range) : lineStretch(span, range));
    }
    turnedDeg += spanDeg;
  }
  return stretches;
}

function wholeArc(span: ArcSpan, range: StretchRange): Stretch {
  const start = arcPoint(span, range.fromMm);
  const middle = arcPoint(span, (range.fromMm + range.toMm) / 2);
  return arcStretch(span, range, { start, middle, end: arcPoint(span, range.toMm) });
}

/** Turn at the joint between two spans: zero but for the mitres of a pie-cut bend, whose spans are both lines. */
function mitreDeg(before: Span, after: Span): number {
  if (before.kind === 'arc' || after.kind === 'arc' || before.pieceIndex !== after.pieceIndex) return 0;
  return degreesOf(angleBetweenRad(before.tangent, after.tangent));
}

/** The largest part of an arc, in degrees, that a search between two tubes starts from. */
export const PAIR_PART_DEG = 90;
