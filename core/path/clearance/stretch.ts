/** Stretches of a centreline that can be halved, each wrapped in a capsule: what the search for the least distance works on. */

import { degreesOf } from '../../units/angle.ts';
import type { ArcSpan, LineSpan, Span, TubePath } from '../trace-primary.ts';
import { addScaled, type Vector } from '../vector.ts';

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
  /** Both halves, worked out when first asked for and kept: a tube is held against many others. Null until then. */
  halves: readonly [Stretch, Stretch] | null;
}

type StretchRange = Pick<Stretch, 'fromMm' | 'toMm' | 'rootFromMm' | 'rootToMm'>;

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

function lineStretch(span: LineSpan): Stretch {
  const { start, end, lengthMm } = span;
  const middle = addScaled(start, span.tangent, lengthMm / 2);
  const range = { fromMm: 0, toMm: lengthMm, rootFromMm: 0, rootToMm: lengthMm };
  const core = { coreStart: start, coreEnd: end, slackMm: 0 };
  return { span, ...range, ...core, start, middle, end, reachMm: lengthMm / 2, halves: null };
}

/** The two halves of an arc's stretch; lines are never halved, for their distances are exact. */
export function halvesOf(stretch: Stretch): readonly [Stretch, Stretch] {
  if (stretch.halves !== null) return stretch.halves;
  const span = stretch.span as ArcSpan;
  const { fromMm, toMm, rootFromMm, rootToMm, start, middle, end } = stretch;
  const middleMm = (fromMm + toMm) / 2;
  const first = { fromMm, toMm: middleMm, rootFromMm, rootToMm };
  const second = { fromMm: middleMm, toMm, rootFromMm, rootToMm };
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

/** The largest part of an arc, in degrees, that a search starts from. */
const LARGEST_PART_DEG = 90;

/** All stretches of a path: lines whole, arcs in equal parts of at most 90 degrees. */
export function stretchesOf(path: TubePath): readonly Stretch[] {
  return path.spans.flatMap((span) => stretchesOfPart(span, 0, span.lengthMm));
}

/** The same of a part of an arc, in millimetres along it; a line is given whole. */
export function stretchesOfPart(span: Span, startMm: number, endMm: number): readonly Stretch[] {
  if (span.kind === 'line') return [lineStretch(span)];
  const turnDeg = degreesOf((endMm - startMm) / span.clrMm);
  const parts = Math.max(1, Math.ceil(turnDeg / LARGEST_PART_DEG - 1e-9));
  return Array.from({ length: parts }, (_, part) => {
    const fromMm = startMm + ((endMm - startMm) * part) / parts;
    const toMm = startMm + ((endMm - startMm) * (part + 1)) / parts;
    return wholeArc(span, { fromMm, toMm, rootFromMm: fromMm, rootToMm: toMm });
  });
}

function wholeArc(span: ArcSpan, range: StretchRange): Stretch {
  const start = arcPoint(span, range.fromMm);
  const middle = arcPoint(span, (range.fromMm + range.toMm) / 2);
  return arcStretch(span, range, { start, middle, end: arcPoint(span, range.toMm) });
}
