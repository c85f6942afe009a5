/** The whole family of tubes with two bends between two poses, given its first straight: one number goes through all of it. */

import {
  add,
  addScaled,
  angleBetweenRad,
  cross,
  dot,
  magnitude,
  scale,
  squareTo,
  subtract,
  turnBetweenRad,
  unit,
  type Vector,
} from '../../path/vector.ts';
import type { TubeEnds, TubeShape } from '../joints/tube-shape.ts';
import { lowestWhere } from './lowest.ts';
import { rootsOf } from './roots.ts';

/** One tube of the family; straights may come out below zero, which no tube can have. */
export interface TwoBendWay {
  readonly firstMm: number;
  readonly firstRad: number;
  readonly middleMm: number;
  readonly secondRad: number;
  readonly lastMm: number;
  readonly lengthMm: number;
}

/** Places of the second corner that are looked at: so many are enough that what a search a hundred times finer finds is found. */
const CELLS = 72;
/** Millimetres by which a root's figure may be off: more is a jump, and no root. */
const JUMP_MM = 1e-4;

/**
 * All tubes of straight, bend, straight, bend, straight from one pose to another with two given CLRs.
 *
 * Axes: `u` through the start, `v` through the end. The corner where the middle straight meets the inlet's axis is at `t` before the
 * end: I2 = Q - t v. A first straight `x` leaves P' = P + x u. The first bend lies in the plane of `u` and I2, and leaves its circle
 * along the tangent to I2, of which exactly one runs the right way. With p along `u` and h aside from P' to I2,
 *
 *     tangent = sqrt(p^2 + h^2 - 2 R1 h),  angle 1 = atan2(h - R1, p) + atan2(R1, tangent)
 *     e = the direction there,  tan(angle 2 / 2) = sqrt((1 - e.v) / (1 + e.v))
 *     middle = tangent - R2 tan(angle 2 / 2),  last = t - R2 tan(angle 2 / 2)
 *
 * so that `x` and `t` give one tube, or none: I2 inside the circle, or an angle above 180. The aside distance h depends on `t` alone and
 * comes from a cross product, no angle from an arc cosine. `t` goes from 0 to infinity, as `reach * tan(share * 90 degrees)`. Near 180 degrees of
 * the second bend the corner runs away, and with it digits: `exactShape` takes such a tube to rounding in joint space.
 */
export class TwoBendFamily {
  readonly ends: TubeEnds;
  readonly clrsMm: readonly [number, number];
  private readonly reachMm: number;
  private readonly between: Vector;
  private readonly asideStart: Vector;
  private readonly asidePer: Vector;
  private readonly alongU: number;
  private readonly alongV: number;
  private readonly cosine: number;

  constructor(ends: TubeEnds, clrsMm: readonly [number, number], reachMm: number) {
    const u = ends.start.tangent;
    const v = ends.wanted.tangent;
    this.ends = ends;
    this.clrsMm = clrsMm;
    this.reachMm = reachMm;
    this.between = subtract(ends.wanted.point, ends.start.point);
    this.asideStart = cross(u, this.between);
    this.asidePer = cross(u, v);
    this.alongU = dot(u, this.between);
    this.alongV = dot(v, this.between);
    this.cosine = dot(u, v);
  }

  /** How far before the end the second corner lies, mm, for a share of the whole range from 0 to 1. */
  cornerMm(share: number): number {
    return this.reachMm * Math.tan((share * Math.PI) / 2);
  }

  /** The tube with this first straight and second corner; null when there is none. */
  way(firstMm: number, cornerMm: number): TwoBendWay | null {
    const [clr1, clr2] = this.clrsMm;
    const ax = this.asideStart.x - cornerMm * this.asidePer.x;
    const ay = this.asideStart.y - cornerMm * this.asidePer.y;
    const az = this.asideStart.z - cornerMm * this.asidePer.z;
    const h = Math.sqrt(ax * ax + ay * ay + az * az);
    const p = this.alongU - firstMm - cornerMm * this.cosine;
    const square = p * p + h * (h - 2 * clr1);
    if (!(square >= 0)) return null;
    const tangentMm = Math.sqrt(square);
    let firstRad = Math.atan2(h - clr1, p) + Math.atan2(clr1, tangentMm);
    if (firstRad < 0) firstRad += firstRad > -1e-12 ? -firstRad : 2 * Math.PI;
    if (firstRad > Math.PI) return null;
    const alongV = this.alongV - firstMm * this.cosine - cornerMm;
    // On the port's own axis there is no plane to bend in, and nothing to bend.
    const acrossV = h < 1e-12 ? 0 : (alongV - p * this.cosine) / h;
    const cosine = Math.cos(firstRad) * this.cosine + Math.sin(firstRad) * acrossV;
    const half = Math.sqrt(Math.max(0, 1 - cosine) / Math.max(1e-300, 1 + cosine));
    const secondRad = 2 * Math.atan(half);
    const middleMm = tangentMm - clr2 * half;
    const lastMm = cornerMm - clr2 * half;
    const lengthMm = firstMm + clr1 * firstRad + middleMm + clr2 * secondRad + lastMm;
    return { firstMm, firstRad, middleMm, secondRad, lastMm, lengthMm };
  }

  /** Every tube with this first straight for which `figure` is zero, in order of the second corner. */
  private every(firstMm: number, figure: (way: TwoBendWay) => number): readonly TwoBendShape[] {
    const at = (share: number) => {
      const way = this.way(firstMm, this.cornerMm(share));
      return way === null ? Number.NaN : figure(way);
    };
    const shapes: TwoBendShape[] = [];
    for (const share of rootsOf(at, CELLS)) {
      const cornerMm = this.cornerMm(share);
      const way = this.way(firstMm, cornerMm);
      if (way === null || !(Math.abs(figure(way)) < JUMP_MM)) continue;
      shapes.push({ way, cornerMm });
    }
    return shapes;
  }

  /** Every tube of this first straight and length. */
  ofLength(firstMm: number, lengthMm: number): readonly TwoBendShape[] {
    return this.every(firstMm, (way) => way.lengthMm - lengthMm);
  }

  /** Every tube of this first and last straight. */
  ofLast(firstMm: number, lastMm: number): readonly TwoBendShape[] {
    return this.every(firstMm, (way) => way.lastMm - lastMm);
  }

  /**
   * The shortest tube of this first straight among those with room, which is a figure that must not be below zero; where none has, the
   * one that lacks the least of it. Null when there is no tube at all. `sections` are as for `lowestWhere`; without any it is exact but where
   * neither the room nor an edge bounds it.
   */
  shortest(firstMm: number, roomOf: (way: TwoBendWay) => number, sections: number): RoomyShape | null {
    const look = (share: number) => {
      const way = this.way(firstMm, this.cornerMm(share));
      return way === null ? null : { value: way.lengthMm, room: roomOf(way) };
    };
    const found = lowestWhere(look, { cells: CELLS, sections });
    if (found === null) return null;
    const cornerMm = this.cornerMm(found.at);
    const way = this.way(firstMm, cornerMm);
    return way === null ? null : { way, cornerMm, room: found.room };
  }

  /**
   * The tubes without a first straight whose first bend turns back by 180 degrees: at most two. Their second corner lies two CLRs aside from the port's axis, which is a
   * square equation in `t`, and the way back is along `-u`. Each millimetre of first straight makes the middle straight longer by as much and leaves the rest.
   */
  turnedBack(): readonly TwoBendShape[] {
    const [clr1, clr2] = this.clrsMm;
    const [square, half] = [dot(this.asidePer, this.asidePer), dot(this.asideStart, this.asidePer)];
    const beside = half * half - square * (dot(this.asideStart, this.asideStart) - 4 * clr1 * clr1);
    if (square < 1e-12 || beside < 0) return [];
    const secondRad = Math.acos(Math.max(-1, Math.min(1, -this.cosine)));
    const setbackMm = clr2 * Math.tan(secondRad / 2);
    return [-1, 1].map((side) => {
      const cornerMm = (half + side * Math.sqrt(beside)) / square;
      const middleMm = cornerMm * this.cosine - this.alongU - setbackMm;
      const lastMm = cornerMm - setbackMm;
      const lengthMm = Math.PI * clr1 + middleMm + clr2 * secondRad + lastMm;
      return { cornerMm, way: { firstMm: 0, firstRad: Math.PI, middleMm, secondRad, lastMm, lengthMm } };
    });
  }

  /** The tube with its clockings: the first from the normal of the start, the second from the plane of the first. */
  shape({ way, cornerMm }: TwoBendShape): TubeShape {
    const { start, wanted } = this.ends;
    const from = addScaled(start.point, start.tangent, way.firstMm);
    const corner = addScaled(wanted.point, wanted.tangent, -cornerMm);
    const aside = squareTo(start.tangent, subtract(corner, from));
    const inward = magnitude(aside) < 1e-9 ? start.normal : unit(aside);
    const [cosine, sine] = [Math.cos(way.firstRad), Math.sin(way.firstRad)];
    const along = add(scale(start.tangent, cosine), scale(inward, sine));
    const normal = add(scale(inward, cosine), scale(start.tangent, -sine));
    const over = squareTo(along, wanted.tangent);
    const [clr1, clr2] = this.clrsMm;
    // Anew and to the last digit, where the search went by the root of a difference.
    const secondRad = angleBetweenRad(along, wanted.tangent);
    const setbackMm = clr2 * Math.tan(secondRad / 2);
    const movedMm = setbackMm - clr2 * Math.tan(way.secondRad / 2);
    return {
      straightsMm: [way.firstMm, way.middleMm - movedMm, cornerMm - setbackMm],
      bends: [
        {
          clrMm: clr1,
          clockingRad: turnBetweenRad(start.tangent, start.normal, inward),
          angleRad: way.firstRad,
        },
        {
          clrMm: clr2,
          clockingRad: magnitude(over) < 1e-12 ? 0 : turnBetweenRad(along, normal, over),
          angleRad: secondRad,
        },
      ],
    };
  }
}

/** A tube of the family and where its second corner lies. */
export interface TwoBendShape {
  readonly way: TwoBendWay;
  readonly cornerMm: number;
}

export interface RoomyShape extends TwoBendShape {
  readonly room: number;
}
