/** A small picture of a primary among the others, seen from above at a slant: enough to tell one idea from another. */

import { extent, line, scaleLinear } from 'd3';
import { type Header, pointAt, traceAsFarAsKnown, type Vector } from '../../../core/index.ts';

export interface TubePicture {
  /** Path data within 0 0 96 64. */
  readonly own: string;
  readonly others: readonly { readonly id: string; readonly data: string }[];
}

const WIDTH = 96;
const HEIGHT = 64;
const MARGIN = 5;
/** Places along a bend. */
const PARTS = 8;

type Flat = readonly [number, number];

/** Forward to the left and down, outboard to the right and down, up upwards: all three can be told apart. */
function flat({ x, y, z }: Vector): Flat {
  return [0.866 * (y - x), 0.5 * (x + y) - z];
}

/** Null where the primary lies nowhere yet. */
export function tubePicture(header: Header, primaryId: string): TubePicture | null {
  const lines = header.primaries.flatMap((primary) => {
    const traced = primary.port === null ? null : traceAsFarAsKnown(primary, primary.port);
    if (traced === null || !traced.ok) return [];
    const points = traced.value.path.spans.flatMap((span) => {
      const parts = span.kind === 'line' ? 1 : PARTS;
      return Array.from({ length: parts + 1 }, (_, part) => flat(pointAt(span, part / parts)));
    });
    return points.length === 0 ? [] : [{ id: primary.id, points }];
  });
  const own = lines.find(({ id }) => id === primaryId);
  if (own === undefined) return null;
  const draw = drawWithin(own.points);
  return {
    own: draw(own.points),
    others: lines.flatMap(({ id, points }) => (id === primaryId ? [] : [{ id, data: draw(points) }])),
  };
}

/** The primary fills the picture, whatever else lies beside it. */
function drawWithin(points: readonly Flat[]): (points: readonly Flat[]) => string {
  const [left = 0, right = 0] = extent(points, ([x]) => x);
  const [top = 0, bottom = 0] = extent(points, ([, y]) => y);
  const size = Math.max((right - left) / (WIDTH - 2 * MARGIN), (bottom - top) / (HEIGHT - 2 * MARGIN), 1e-9);
  const [middleX, middleY] = [(left + right) / 2, (top + bottom) / 2];
  const x = scaleLinear([middleX - (size * WIDTH) / 2, middleX + (size * WIDTH) / 2], [0, WIDTH]);
  const y = scaleLinear([middleY - (size * HEIGHT) / 2, middleY + (size * HEIGHT) / 2], [0, HEIGHT]);
  const data = line<Flat>(
    (point) => x(point[0]),
    (point) => y(point[1]),
  ).digits(1);
  return (drawn) => data(drawn) ?? '';
}

/** Seen only: the words beside it say the same. */
export function TubePictureView({ picture }: { readonly picture: TubePicture }) {
  return (
    <svg className="tube-picture" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} aria-hidden="true">
      {picture.others.map(({ id, data }) => (
        <path key={id} className="tube-picture-other" d={data} />
      ))}
      <path className="tube-picture-own" d={picture.own} />
    </svg>
  );
}
