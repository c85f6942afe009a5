/** Tubes of two bends of a wanted length, along the whole of their one-parameter family; and the shortest of all. */

import { distance } from '../../path/vector.ts';
import { closeShape, shapeOf, valuesOf } from '../joints/close-shape.ts';
import {
  type LeastStraights,
  reversedEnds,
  shapeEnd,
  shapeLengthMm,
  type TubeEnds,
  type TubeShape,
} from '../joints/tube-shape.ts';
import { TwoBendFamily, type TwoBendShape, type TwoBendWay } from './two-bends.ts';

/** First straights looked at between the least and the largest that was found, and besides them over the whole length. */
const WITHIN = 12;
const OVER_ALL = 8;

export interface TwoBendQuestion {
  readonly ends: TubeEnds;
  readonly clrsMm: readonly [number, number];
  readonly least: LeastStraights;
}

/**
 * Slack on the least straights: figures of the family may be off by so much near a bend that vanishes, and rounding to a saw comes
 * after.
 */
const SLACK_MM = 1e-7;

function isWorkable({ firstMm, middleMm, lastMm }: TwoBendWay, { least }: Pick<TwoBendQuestion, 'least'>): boolean {
  return (
    firstMm >= least.firstMm - SLACK_MM && middleMm >= least.betweenMm - SLACK_MM && lastMm >= least.lastMm - SLACK_MM
  );
}

function familyOf({ ends, clrsMm }: TwoBendQuestion, lengthMm: number): TwoBendFamily {
  return new TwoBendFamily(ends, clrsMm, lengthMm / 2);
}

/** The same tubes from the other end. */
function fromOtherEnd({ ends, clrsMm, least }: TwoBendQuestion): TwoBendQuestion {
  return {
    ends: reversedEnds(ends),
    clrsMm: [clrsMm[1], clrsMm[0]],
    least: { firstMm: least.lastMm, betweenMm: least.betweenMm, lastMm: least.firstMm },
  };
}

/** Every workable tube with this first straight and this length. */
export function twoBendsFrom(question: TwoBendQuestion, firstMm: number, lengthMm: number): readonly TubeShape[] {
  const family = familyOf(question, lengthMm);
  return workable(family, family.ofLength(firstMm, lengthMm), { ...question, lengthMm });
}

function workable(
  family: TwoBendFamily,
  shapes: readonly TwoBendShape[],
  question: TwoBendQuestion & { readonly lengthMm: number },
): readonly TubeShape[] {
  return shapes
    .filter(({ way }) => isWorkable(way, question))
    .map((shape) => exactShape(question, family.shape(shape), question.lengthMm));
}

/** A tube that is off by less is as exact as its figures can be. */
const EXACT_MM = 1e-10;

/**
 * The tube taken to rounding in joint space where it is off by more, which is near 180 degrees of a bend, where corners run away; as it is where that
 * does not succeed. Its first straight may then differ in the last digits.
 */
function exactShape({ ends }: TwoBendQuestion, shape: TubeShape, lengthMm: number): TubeShape {
  const end = shapeEnd(ends.start, shape);
  const offMm = distance(end.point, ends.wanted.point) + Math.abs(shapeLengthMm(shape) - lengthMm);
  if (offMm < EXACT_MM) return shape;
  const clrsMm = shape.bends.map(({ clrMm }) => clrMm);
  const anyValue = clrsMm.length * 3 + 1;
  const low = new Float64Array(anyValue).fill(Number.NEGATIVE_INFINITY);
  const high = new Float64Array(anyValue).fill(Number.POSITIVE_INFINITY);
  const values = closeShape({ ends, clrsMm, lengthMm, low, high }, valuesOf(shape));
  return values === null ? shape : shapeOf(values, clrsMm);
}

/**
 * Tubes of two bends of a wanted length, spread over their family.
 *
 * With a length wanted one number is free: the first straight. Along a branch of solutions the length changes with the first straight by
 * 1 - cos(angle 1) and with the last by 1 - cos(angle 2), since the shortest way between two poses changes with a shift
 * of an end by the cosine to its middle straight. So as the first straight grows the last one shrinks, and a branch runs from where the
 * first is least to where the last is least. Both of those are solved for, the second from the other end; between them, and more coarsely
 * over the whole length for branches that the middle straight cuts off, the first straight is stepped.
 */
export function twoBendsOfLength(question: TwoBendQuestion, lengthMm: number): readonly TubeShape[] {
  const family = familyOf(question, lengthMm);
  const turned = fromOtherEnd(question);
  const otherEnd = familyOf(turned, lengthMm);
  const lastLeast = otherEnd
    .ofLength(turned.least.firstMm, lengthMm)
    .filter(({ way }) => isWorkable(way, turned))
    .map(({ way }) => way.lastMm);
  const shapes: TubeShape[] = [];
  for (const firstMm of firstStraights(question.least.firstMm, lengthMm, lastLeast)) {
    shapes.push(...workable(family, family.ofLength(firstMm, lengthMm), { ...question, lengthMm }));
  }
  return shapes;
}

function firstStraights(leastMm: number, lengthMm: number, ends: readonly number[]): readonly number[] {
  const firsts = [leastMm, ...ends];
  const mostMm = Math.max(leastMm, ...ends);
  for (let i = 1; i < WITHIN && mostMm > leastMm; i += 1) firsts.push(leastMm + ((mostMm - leastMm) * i) / WITHIN);
  for (let i = 1; i < OVER_ALL; i += 1) firsts.push(leastMm + (lengthMm - leastMm) * (i / OVER_ALL) ** 1.5);
  return firsts.sort((a, b) => a - b);
}

/** Golden sections of the first straight about the shortest tube that a middle straight cuts off. */
const SECTIONS = 40;
const GOLDEN = (Math.sqrt(5) - 1) / 2;
/** First straights looked at along the edge where the middle straight is least. */
const ALONG_EDGE = 16;

/**
 * The shortest workable tube of two bends; null when there is none.
 *
 * The length rises with both end straights (see `twoBendsOfLength`), so it is least where both are least, which is solved for and not
 * sampled. Only where the middle straight would be too short there does the edge along which it is least come in: on that
 * the first straight is stepped, and the best closed in on.
 */
export function shortestTwoBends(question: TwoBendQuestion): TubeShape | null {
  const { ends, least } = question;
  const apartMm = distance(ends.wanted.point, ends.start.point);
  const family = familyOf(question, apartMm + 2 * (question.clrsMm[0] + question.clrsMm[1]));
  const corner = shortestOf(family.ofLast(least.firstMm, least.lastMm), question);
  const edge = shortestAlongEdge(family, question);
  const found = [corner, edge].filter((shape) => shape !== null).sort((a, b) => a.way.lengthMm - b.way.lengthMm)[0];
  return found === undefined ? null : exactShape(question, family.shape(found), found.way.lengthMm);
}

function shortestOf(shapes: readonly TwoBendShape[], question: TwoBendQuestion): TwoBendShape | null {
  let best: TwoBendShape | null = null;
  for (const shape of shapes) {
    if (!isWorkable(shape.way, question)) continue;
    if (best === null || shape.way.lengthMm < best.way.lengthMm) best = shape;
  }
  return best;
}

function shortestAlongEdge(family: TwoBendFamily, question: TwoBendQuestion): TwoBendShape | null {
  const { least } = question;
  const [one, other] = question.clrsMm;
  const shortest = (firstMm: number) => shortestOf(family.ofMiddle(firstMm, least.betweenMm), question);
  const lengthAt = (firstMm: number) => shortest(firstMm)?.way.lengthMm ?? Number.POSITIVE_INFINITY;
  const stepMm = (one + other) / 4;
  const firsts = Array.from({ length: ALONG_EDGE }, (_, i) => least.firstMm + i * stepMm);
  const lengths = firsts.map(lengthAt);
  const at = lengths.indexOf(Math.min(...lengths));
  if (!Number.isFinite(lengths[at])) return null;
  let low = firsts[Math.max(0, at - 1)] as number;
  let high = firsts[Math.min(firsts.length - 1, at + 1)] as number;
  let best = firsts[at] as number;
  for (let section = 0; section < SECTIONS && high - low > 1e-9; section += 1) {
    const left = high - GOLDEN * (high - low);
    const right = low + GOLDEN * (high - low);
    const [atLeft, atRight] = [lengthAt(left), lengthAt(right)];
    if (Math.min(atLeft, atRight) < lengthAt(best)) best = atLeft < atRight ? left : right;
    if (atLeft < atRight) high = right;
    else low = left;
  }
  return shortest(best);
}
