/** Tubes of two bends of a wanted length, along the whole of their one-parameter family; and the shortest of all. */

import { distance } from '../../path/vector.ts';
import { closeShape, shapeOf, valuesOf } from '../joints/close-shape.ts';
import {
  type LeastStraights,
  leastAt,
  reversedEnds,
  reversedShape,
  shapeEnd,
  shapeLengthMm,
  type TubeEnds,
  type TubeShape,
} from '../joints/tube-shape.ts';
import { lowestWhere } from './lowest.ts';
import { TwoBendFamily, type TwoBendShape, type TwoBendWay } from './two-bends.ts';

/** First straights looked at between the least and the largest that was found, and besides them over the whole length. */
const WITHIN = 12;
const OVER_ALL = 8;
/** And beside one at which a bend turns by 180 degrees. */
const BESIDE_MM = [0.5, 2, 8];

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

type Least = Pick<TwoBendQuestion, 'least'>;

function isWorkable(way: TwoBendWay, { least }: Least): boolean {
  return way.firstMm >= least.firstMm - SLACK_MM && roomOf(way, { least }) >= -SLACK_MM;
}

/** By how much the middle or the last straight is over its least, whichever is less; mm. */
function roomOf({ middleMm, lastMm }: TwoBendWay, { least }: Least): number {
  return Math.min(middleMm - least.betweenMm, lastMm - least.lastMm);
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

/**
 * Workable tubes with a bend of 180 degrees, the first or the second, each with the first straight that `firstMm` gives for the
 * tube without one; the last one, where it is the second bend. A branch ends there.
 */
function turnedBack(
  question: TwoBendQuestion,
  firstMm: (without: TwoBendWay, question: TwoBendQuestion) => number,
): readonly TubeShape[] {
  const one = firstTurnedBack(question, firstMm);
  const turned = fromOtherEnd(question);
  return [...one, ...firstTurnedBack(turned, firstMm).map((shape) => reversedShape(turned.ends, shape))];
}

function firstTurnedBack(
  question: TwoBendQuestion,
  firstMm: (without: TwoBendWay, question: TwoBendQuestion) => number,
): readonly TubeShape[] {
  const family = familyOf(question, 1);
  return family
    .turnedBack()
    .map(({ way, cornerMm }) => {
      const moreMm = firstMm(way, question);
      const { middleMm, lengthMm } = way;
      return {
        cornerMm,
        way: { ...way, firstMm: moreMm, middleMm: middleMm + moreMm, lengthMm: lengthMm + 2 * moreMm },
      };
    })
    .filter(({ way }) => isWorkable(way, question))
    .map((shape) => exactShape(question, family.shape(shape), shape.way.lengthMm));
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
function exactShape({ ends, least }: TwoBendQuestion, shape: TubeShape, lengthMm: number): TubeShape {
  const end = shapeEnd(ends.start, shape);
  const offMm = distance(end.point, ends.wanted.point) + Math.abs(shapeLengthMm(shape) - lengthMm);
  if (offMm < EXACT_MM) return shape;
  const clrsMm = shape.bends.map(({ clrMm }) => clrMm);
  const anyValue = clrsMm.length * 3 + 1;
  const low = new Float64Array(anyValue).fill(Number.NEGATIVE_INFINITY);
  const high = new Float64Array(anyValue).fill(Number.POSITIVE_INFINITY);
  for (let bend = 0; bend < clrsMm.length; bend += 1) high[3 * bend + 2] = Math.PI;
  for (let straight = 0; straight <= clrsMm.length; straight += 1) {
    low[3 * straight] = leastAt(least, straight, clrsMm.length) - SLACK_MM;
  }
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
  const back = turnedBack(question, (without) => (lengthMm - without.lengthMm) / 2);
  const besideBack = back.flatMap(({ straightsMm: [firstMm = 0] }) =>
    BESIDE_MM.flatMap((mm) => [firstMm - mm, firstMm + mm]),
  );
  shapes.push(...back);
  const beside = besideBack.filter((firstMm) => firstMm >= question.least.firstMm);
  for (const firstMm of [...firstStraights(question.least.firstMm, lengthMm, lastLeast), ...beside]) {
    shapes.push(...workable(family, family.ofLength(firstMm, lengthMm), { ...question, lengthMm }));
  }
  return shapes.length > 0 ? shapes : twoBendsOnShortStretch(question, family, lengthMm);
}

/** First straights looked at for a stretch on which none of those above lies, and golden sections about the one with the most room: any with room will do. */
const CLOSER = { cells: 24, sections: 10 };

/** Tubes on a branch that the middle straight cuts off on both sides: where there is the most room, and about it. */
function twoBendsOnShortStretch(
  question: TwoBendQuestion,
  family: TwoBendFamily,
  lengthMm: number,
): readonly TubeShape[] {
  const firstMm = (share: number) => question.least.firstMm + share * (lengthMm - question.least.firstMm);
  const room = (share: number) => {
    const rooms = family.ofLength(firstMm(share), lengthMm).map(({ way }) => roomOf(way, question));
    return rooms.length === 0 ? null : Math.max(...rooms);
  };
  const look = (share: number) => {
    const there = room(share);
    return there === null ? null : { value: -there, room: there };
  };
  const most = lowestWhere(look, CLOSER);
  if (most === null || most.room < -SLACK_MM) return [];
  return workable(family, family.ofLength(firstMm(most.at), lengthMm), { ...question, lengthMm });
}

function firstStraights(leastMm: number, lengthMm: number, ends: readonly number[]): readonly number[] {
  const firsts = [leastMm, ...ends];
  const mostMm = Math.max(leastMm, ...ends);
  for (let i = 1; i < WITHIN && mostMm > leastMm; i += 1) firsts.push(leastMm + ((mostMm - leastMm) * i) / WITHIN);
  for (let i = 1; i < OVER_ALL; i += 1) firsts.push(leastMm + (lengthMm - leastMm) * (i / OVER_ALL) ** 1.5);
  return firsts.sort((a, b) => a - b);
}

/** First straights looked at for the shortest tube, besides the least. */
const FIRSTS = { cells: 24, sections: 30 };
/** About the shortest tube of one first straight: while they are gone through, and of the one that is taken. */
const PASSING_SECTIONS = 0;
const TAKEN_SECTIONS = 40;

/**
 * The shortest workable tube of two bends; null when there is none.
 *
 * The length rises with both end straights (see `twoBendsOfLength`), so it is least where both are least, unless the middle straight would be too short there or a
 * bend would turn by more than 180 degrees. Then it lies on an edge of what is workable. So the shortest of each first straight is sought, which is on an
 * edge too, and the shortest of these.
 */
export function shortestTwoBends(question: TwoBendQuestion): TubeShape | null {
  const { ends, clrsMm, least } = question;
  const reachMm = distance(ends.wanted.point, ends.start.point) + 2 * (clrsMm[0] + clrsMm[1]);
  const family = familyOf(question, 2 * reachMm);
  const room = (way: TwoBendWay) => roomOf(way, question);
  const taken = (firstMm: number) => family.shortest(firstMm, room, TAKEN_SECTIONS);
  const firstMm = (share: number) => least.firstMm + reachMm * Math.tan((share * Math.PI) / 2);
  const further = lowestWhere((share) => {
    const found = family.shortest(firstMm(share), room, PASSING_SECTIONS);
    return found === null ? null : { value: found.way.lengthMm, room: found.room };
  }, FIRSTS);
  const found = [taken(least.firstMm), further && taken(firstMm(further.at))]
    .filter((shape) => shape !== null)
    .filter(({ way }) => isWorkable(way, question))
    .map((shape) => exactShape(question, family.shape(shape), shape.way.lengthMm));
  const back = turnedBack(question, ({ middleMm }, asked) =>
    Math.max(asked.least.firstMm, asked.least.betweenMm - middleMm),
  );
  return [...found, ...back].sort((a, b) => shapeLengthMm(a) - shapeLengthMm(b))[0] ?? null;
}
