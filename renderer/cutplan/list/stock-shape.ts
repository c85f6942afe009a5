/** The outline of a stock item in its own plane, and of any stretch of it: legs and arc as they lie on the bench. */

import * as d3 from 'd3';
import { radiansOf, type StockRow } from '../../../core/index.ts';

/** mm, x to the right and y down, as a picture has them. */
export type Place = readonly [x: number, y: number];

export interface StockShape {
  readonly lengthMm: number;
  /** The place on the centreline at a distance from the first end, moved outwards by so much. */
  readonly placeAt: (alongMm: number, outwardMm: number) => Place;
}

/** An arc is drawn in steps of this; off the true arc by less than 0.04 % of its radius. */
const STEP_DEG = 3;

export function stockShape(row: StockRow): StockShape {
  if (row.kind === 'straight') return { lengthMm: row.lengthMm, placeAt: (along, outward) => [along, -outward] };
  const [first, other] = row.legsMm;
  const half = radiansOf(row.angleDeg) / 2;
  const arcMm = row.clrMm * 2 * half;
  return {
    lengthMm: first + arcMm + other,
    // The middle of the arc is on top, its centre the origin; legs are tangents at its ends.
    placeAt(along, outward) {
      const onArc = Math.min(arcMm, Math.max(0, along - first));
      const turned = onArc / row.clrMm - half;
      const beyond = along - first - onArc;
      const radius = row.clrMm + outward;
      const [sin, cos] = [Math.sin(turned), Math.cos(turned)];
      return [radius * sin + beyond * cos, -(radius * cos - beyond * sin)];
    },
  };
}

/** Where to stop along a stretch so that its arc looks round; both ends among them. */
function stops(row: StockRow, fromMm: number, toMm: number): readonly number[] {
  if (row.kind === 'straight') return [fromMm, toMm];
  const arcFromMm = row.legsMm[0];
  const count = Math.max(1, Math.ceil(row.angleDeg / STEP_DEG));
  const stepMm = (row.clrMm * radiansOf(row.angleDeg)) / count;
  const onArc = d3.range(count + 1).map((at) => arcFromMm + at * stepMm);
  return [fromMm, ...onArc.filter((at) => at > fromMm && at < toMm), toMm];
}

/** The outline of a stretch from the first end's side to the other's, as an SVG path in mm. */
export function stretchPath(row: StockRow, fromMm: number, toMm: number): string {
  const { placeAt } = stockShape(row);
  const half = row.tube.odMm / 2;
  const along = stops(row, fromMm, toMm);
  const outside = along.map((at) => placeAt(at, half));
  const inside = along.toReversed().map((at) => placeAt(at, -half));
  return `${d3.line()([...outside, ...inside].map(([x, y]) => [x, y])) ?? ''}Z`;
}

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** What the whole item takes up, mm. */
export function boxOf(row: StockRow): Box {
  const { lengthMm, placeAt } = stockShape(row);
  const half = row.tube.odMm / 2;
  const places = stops(row, 0, lengthMm).flatMap((at) => [placeAt(at, half), placeAt(at, -half)]);
  const [left = 0, right = 0] = d3.extent(places, ([x]) => x);
  const [top = 0, bottom = 0] = d3.extent(places, ([, y]) => y);
  return { x: left, y: top, width: right - left, height: bottom - top };
}
