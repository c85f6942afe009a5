/** A flat view of a header as a few lines, small enough to be drawn by the dozen. */

import * as d3 from 'd3';
import type { FlatPoint, FlatTube, FlatView } from '../../core/index.ts';

/** What a drawing takes up, in mm, upwards being positive. */
export interface FlatBounds {
  readonly leftMm: number;
  readonly rightMm: number;
  readonly lowMm: number;
  readonly highMm: number;
}

export interface DrawnTube {
  readonly key: string;
  /** Centreline in SVG notation, to be drawn `widthMm` wide; mm, downwards positive. */
  readonly path: string;
  readonly widthMm: number;
}

export interface FlatDrawing {
  readonly bounds: FlatBounds;
  /** The farthest from the eye first. */
  readonly tubes: readonly DrawnTube[];
}

const through = d3
  .line<FlatPoint>(
    ({ xMm }) => xMm,
    ({ yMm }) => -yMm,
  )
  .digits(0);

/** Null where nothing has a place in space. */
export function flatDrawing(view: FlatView): FlatDrawing | null {
  const bounds = boundsOf(view);
  if (bounds === null) return null;
  const tubes = view.tubes.map((tube, index) => ({
    key: `${index}`,
    path: tube.pieces.map(({ centreline }) => through(centreline) ?? '').join(''),
    widthMm: tube.odMm,
    nearMm: d3.mean(tube.pieces, ({ nearMm }) => nearMm) ?? 0,
  }));
  return {
    bounds,
    tubes: d3.sort(tubes, ({ nearMm }) => nearMm).map(({ nearMm: _, ...tube }) => tube),
  };
}

/** Of several views, the one in which the header takes up the most: the first of equals, null where there is none. */
export function largestView(views: readonly FlatView[]): FlatView | null {
  const area = (view: FlatView) => {
    const bounds = boundsOf(view);
    return bounds === null ? 0 : widthOf(bounds) * heightOf(bounds);
  };
  return d3.greatest(views, area) ?? null;
}

export function widthOf({ leftMm, rightMm }: FlatBounds): number {
  return rightMm - leftMm;
}

export function heightOf({ lowMm, highMm }: FlatBounds): number {
  return highMm - lowMm;
}

function boundsOf({ tubes }: FlatView): FlatBounds | null {
  const reach = (read: (point: FlatPoint) => number) => d3.extent(tubes.flatMap((tube) => reachesOf(tube, read)));
  const [leftMm, rightMm] = reach(({ xMm }) => xMm);
  const [lowMm, highMm] = reach(({ yMm }) => yMm);
  if (leftMm === undefined || rightMm === undefined || lowMm === undefined || highMm === undefined) return null;
  return { leftMm, rightMm, lowMm, highMm };
}

/** Half the tube lies on either side of its centreline. */
function reachesOf({ pieces, odMm }: FlatTube, read: (point: FlatPoint) => number): readonly number[] {
  const places = pieces.flatMap(({ centreline }) => centreline.map(read));
  return places.flatMap((place) => [place - odMm / 2, place + odMm / 2]);
}
