/** A tube as a few numbers that are turned at will: where its end comes to lie and how long it is, by its own arithmetic. */

import type { Header, Primary } from '../../core/header/header.ts';
import { mmOf } from '../../core/units/length.ts';
import { frameIn, poseMatrix } from './path-matrices.ts';

const RADIANS = Math.PI / 180;

/** One thing that may change, by so much from `low` to `high`: millimetres, or radians for `clocking` and `angle`. */
export interface Knob {
  readonly kind: 'length' | 'gone' | 'letIn' | 'clocking' | 'angle';
  readonly at: number;
  readonly low: number;
  readonly high: number;
}

/** A straight, or a bend with `clrMm`; turned by `clocking` before it. */
interface Part {
  readonly clrMm: number;
  readonly lengthMm: number;
  readonly clocking: number;
  readonly angle: number;
}

export class WideTube {
  readonly parts: readonly Part[];
  private readonly start: Float64Array;
  private readonly wanted: Float64Array;
  private readonly scales: { readonly gap: number; readonly tilt: number };
  private readonly slip: { readonly deeper: number; readonly shallower: number };
  private readonly band: { readonly low: number; readonly high: number };
  private readonly frame = new Float64Array(9);

  /** The header's first primary, which must be a single one with a typed target and an inlet in a pose. */
  constructor(header: Header, { pieces, port }: Primary) {
    const { closure, target, tolerance } = header.settings;
    const inlet = header.collectors[0]?.inlets[0];
    if (port === null || inlet?.place?.kind !== 'pose' || target.kind !== 'typed') throw new Error('Another header');
    this.parts = pieces.map((piece): Part => {
      if (piece.kind === 'straight') return { clrMm: 0, lengthMm: mmOf(piece.length), clocking: 0, angle: 0 };
      const [clocking, angle] = [(piece.clockingDeg ?? 0) * RADIANS, piece.angleDeg * RADIANS];
      return { clrMm: mmOf(piece.clr), lengthMm: 0, clocking, angle };
    });
    const [from, to] = [frameIn(poseMatrix(port)), frameIn(poseMatrix(inlet.place.pose))];
    this.start = Float64Array.of(...from.point.toArray(), ...from.tangent.toArray(), ...from.normal.toArray());
    this.wanted = Float64Array.of(
      ...to.point.toArray(),
      ...to.tangent.toArray(),
      ...to.normal.toArray(),
      ...to.tangent.clone().cross(to.normal).toArray(),
    );
    this.scales = { gap: mmOf(closure.gap), tilt: closure.tiltDeg * RADIANS };
    this.slip = { deeper: mmOf(inlet.slip.deeper), shallower: mmOf(inlet.slip.shallower) };
    const targetMm = mmOf(target.length);
    this.band = { low: targetMm - mmOf(tolerance.minus), high: targetMm + mmOf(tolerance.plus) };
  }

  /**
   * How far the end misses with the knobs so: aside twice, beyond the slip, leaning twice, and outside the band, each in its
   * tolerance (for length that of the gap). Written into `left`.
   */
  misses(knobs: readonly Knob[], values: ArrayLike<number>, left: Float64Array): void {
    const { frame, wanted } = this;
    frame.set(this.start);
    let lengthMm = 0;
    for (let at = 0; at <= this.parts.length; at += 1) {
      let stretch = 0;
      let clocking = 0;
      let angle = 0;
      let before = 0;
      for (let k = 0; k < knobs.length; k += 1) {
        const knob = knobs[k] as Knob;
        if (knob.at !== at) continue;
        const value = values[k] as number;
        if (knob.kind === 'letIn') before = value;
        else if (knob.kind === 'clocking') clocking = value;
        else if (knob.kind === 'angle') angle = value;
        else stretch = value;
      }
      if (before > 0) lengthMm += this.go(before);
      const part = this.parts[at];
      if (part === undefined) break;
      if (part.clrMm === 0) lengthMm += this.go(part.lengthMm + stretch);
      else lengthMm += this.turn(part.clrMm, part.clocking + clocking, part.angle + angle);
    }
    const x = (frame[0] as number) - (wanted[0] as number);
    const y = (frame[1] as number) - (wanted[1] as number);
    const z = (frame[2] as number) - (wanted[2] as number);
    const along = (axis: number, a: number, b: number, c: number) =>
      a * (wanted[axis] as number) + b * (wanted[axis + 1] as number) + c * (wanted[axis + 2] as number);
    const [tx, ty, tz] = [frame[3] as number, frame[4] as number, frame[5] as number];
    const isBack = along(3, tx, ty, tz) < 0 ? 10 : 0;
    left[0] = along(6, x, y, z) / this.scales.gap;
    left[1] = along(9, x, y, z) / this.scales.gap;
    left[2] = beyond(along(3, x, y, z), -this.slip.shallower, this.slip.deeper) / this.scales.gap;
    left[3] = (along(6, tx, ty, tz) + isBack) / this.scales.tilt;
    left[4] = along(9, tx, ty, tz) / this.scales.tilt;
    left[5] = beyond(lengthMm, this.band.low, this.band.high) / this.scales.gap;
  }

  /** Closed, in the band. */
  static isMet(left: Float64Array): boolean {
    const gap = Math.hypot(left[0] as number, left[1] as number, left[2] as number);
    const tilt = Math.hypot(left[3] as number, left[4] as number);
    return gap <= 1 && tilt <= 1 && Math.abs(left[5] as number) < 1e-6;
  }

  private go(mm: number): number {
    const { frame } = this;
    for (let i = 0; i < 3; i += 1) frame[i] = (frame[i] as number) + mm * (frame[i + 3] as number);
    return mm;
  }

  private turn(clrMm: number, clocking: number, angle: number): number {
    const { frame } = this;
    const [tx, ty, tz] = [frame[3] as number, frame[4] as number, frame[5] as number];
    const [nx, ny, nz] = [frame[6] as number, frame[7] as number, frame[8] as number];
    const [cc, sc] = [Math.cos(clocking), Math.sin(clocking)];
    const ux = cc * nx + sc * (ty * nz - tz * ny);
    const uy = cc * ny + sc * (tz * nx - tx * nz);
    const uz = cc * nz + sc * (tx * ny - ty * nx);
    const [ca, sa] = [Math.cos(angle), Math.sin(angle)];
    const [on, aside] = [clrMm * sa, clrMm * (1 - ca)];
    frame[0] = (frame[0] as number) + on * tx + aside * ux;
    frame[1] = (frame[1] as number) + on * ty + aside * uy;
    frame[2] = (frame[2] as number) + on * tz + aside * uz;
    frame[3] = ca * tx + sa * ux;
    frame[4] = ca * ty + sa * uy;
    frame[5] = ca * tz + sa * uz;
    frame[6] = ca * ux - sa * tx;
    frame[7] = ca * uy - sa * ty;
    frame[8] = ca * uz - sa * tz;
    return clrMm * angle;
  }
}

function beyond(value: number, low: number, high: number): number {
  return value < low ? value - low : Math.max(0, value - high);
}
