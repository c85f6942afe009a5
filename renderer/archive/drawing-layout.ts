/** A flat view of a header as lines: a few for a small picture among many, more for a large one. */

import * as d3 from 'd3';
import type { FlatPoint, FlatTube, FlatView } from '../../core/index.ts';

/** What a drawing takes up, in mm, upwards being positive. */
export interface FlatBounds {
  readonly leftMm: number;
  readonly rightMm: number;
  readonly lowMm: number;
  readonly highMm: number;
}

/** A run of tube: one primary in a small picture, one piece in a large one. Mm, downwards positive. */
export interface DrawnTube {
  readonly key: string;
  /** Centreline in SVG notation, to be drawn `widthMm` wide with blunt ends. */
  readonly path: string;
  /** The ellipses at the ends of a piece; empty in a small picture. */
  readonly ends: string;
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
  .digits(1);

type NearTube = DrawnTube & { readonly nearMm: number };

/** One line for each primary. Null where nothing has a place in space. */
export function smallDrawing(view: FlatView): FlatDrawing | null {
  const tubes = view.tubes.map(({ pieces, odMm }, index) => ({
    key: `${index}`,
    path: pieces.map(({ centreline }) => through(centreline) ?? '').join(''),
    ends: '',
    widthMm: odMm,
    nearMm: d3.mean(pieces, ({ nearMm }) => nearMm) ?? 0,
  }));
  return drawingOf(view, tubes);
}

/** Every piece with its ends, as on a drawing. Null where nothing has a place in space. */
export function largeDrawing(view: FlatView): FlatDrawing | null {
  const tubes = view.tubes.flatMap(({ pieces, odMm }, index) =>
    pieces.map(({ centreline, ends, nearMm }, place) => ({
      key: `${index}.${place}`,
      path: through(centreline) ?? '',
      ends: ends.map((ring) => `${through(ring) ?? ''}Z`).join(''),
      widthMm: odMm,
      nearMm,
    })),
  );
  return drawingOf(view, tubes);
}

function drawingOf(view: FlatView, tubes: readonly NearTube[]): FlatDrawing | null {
  const bounds = boundsOf(view);
  if (bounds === null) return null;
  return { bounds, tubes: d3.sort(tubes, ({ nearMm }) => nearMm).map(({ nearMm: _, ...tube }) => tube) };
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
