/** The header from the front, the side and above, as flat lines in millimetres. */

import { type Header, type Primary, tubeOf } from '../header/header.ts';
import { centrePoints } from '../path/centre-points.ts';
import { inletFrame } from '../path/ends/inlet-pose.ts';
import { binormalOf, type Frame } from '../path/frame.ts';
import type { PathProblem } from '../path/path-problem.ts';
import { type TubePath, traceAsFarAsKnown } from '../path/trace-primary.ts';
import { add, dot, scale, type Vector } from '../path/vector.ts';
import { radiansOf } from '../units/angle.ts';
import { mmOf } from '../units/length.ts';
import { primaryLabel } from './primary-label.ts';

/** A point of a flat drawing in mm: to the right and upwards. */
export interface FlatPoint {
  readonly xMm: number;
  readonly yMm: number;
}

/** A piece of tube seen flat: its centreline, to be drawn as wide as the OD, and the circles of its two ends. */
export interface FlatPiece {
  readonly centreline: readonly FlatPoint[];
  readonly ends: readonly [readonly FlatPoint[], readonly FlatPoint[]];
  /** How near to the eye its middle is, mm; what is nearer covers what is behind it. */
  readonly nearMm: number;
}

export interface FlatTube {
  readonly label: string;
  readonly odMm: number;
  readonly pieces: readonly FlatPiece[];
}

export interface FlatView {
  readonly name: 'Front' | 'Side' | 'Top';
  /** Which way its edges point: "outboard to the right". */
  readonly way: string;
  readonly tubes: readonly FlatTube[];
  /** The mouths of inlets that are measured. */
  readonly inlets: readonly (readonly FlatPoint[])[];
}

export interface ViewAxes {
  readonly right: Vector;
  readonly up: Vector;
  /** Out of the paper, towards the eye. */
  readonly towards: Vector;
}

const [X, Y, Z]: readonly Vector[] = [
  { x: 1, y: 0, z: 0 },
  { x: 0, y: 1, z: 0 },
  { x: 0, y: 0, z: 1 },
] as const;

const VIEWS = [
  { name: 'Front', way: 'outboard to the right', right: Y, up: Z, towards: X },
  { name: 'Side', way: 'forward to the left', right: { x: -1, y: 0, z: 0 }, up: Z, towards: Y },
  { name: 'Top', way: 'forward up, outboard to the left', right: { x: 0, y: -1, z: 0 }, up: X, towards: Z },
] as const;

const RING_POINTS = 24;

/** A primary in space, as far as its path is known. */
export interface PlacedTube {
  readonly primary: Primary;
  readonly label: string;
  readonly odMm: number;
  readonly path: TubePath;
}

/** Three views of what has a place in space, all to one scale; `problems` name what is left out, or drawn only in part. */
export function flatViews(header: Header): {
  readonly views: readonly FlatView[];
  readonly problems: readonly PathProblem[];
} {
  const { tubes, problems } = placedTubes(header);
  if (tubes.length === 0) return { views: [], problems };
  const inlets = header.collectors.flatMap((collector) =>
    collector.inlets.flatMap((inlet) => {
      const frame = inletFrame(header, inlet.id);
      return frame.ok ? [{ frame: frame.value, odMm: mmOf(header.settings.tube.od) }] : [];
    }),
  );
  const views = VIEWS.map(
    ({ name, way, ...axes }): FlatView => ({
      name,
      way,
      tubes: tubes.map((tube) => flatTube(tube, axes)),
      inlets: inlets.map(({ frame, odMm }) => ring(frame, odMm, axes)),
    }),
  );
  return { views, problems };
}

/** Every primary that has pieces and a place; `problems` name the others, and those that are known only in part. */
export function placedTubes(header: Header): {
  readonly tubes: readonly PlacedTube[];
  readonly problems: PathProblem[];
} {
  const problems: PathProblem[] = [];
  const tubes = header.primaries.flatMap((primary, index): readonly PlacedTube[] => {
    if (primary.pieces.length === 0) return [];
    if (primary.port === null) {
      problems.push({ kind: 'portMissing', primaryId: primary.id, primaryName: primary.name });
      return [];
    }
    const traced = traceAsFarAsKnown(primary, primary.port);
    if (!traced.ok) {
      problems.push(...traced.problems);
      return [];
    }
    const { path, problem } = traced.value;
    if (problem !== null) problems.push(problem);
    return [{ primary, label: primaryLabel(primary.name, index + 1), odMm: mmOf(tubeOf(header, primary).od), path }];
  });
  return { tubes, problems };
}

export function flatTube({ label, odMm, path }: Pick<PlacedTube, 'label' | 'odMm' | 'path'>, axes: ViewAxes): FlatTube {
  const pieces = path.joints.slice(1).map((end, index): FlatPiece => {
    const spans = path.spans.filter(({ pieceIndex }) => pieceIndex === index);
    const points = centrePoints(spans);
    const start = path.joints[index] ?? end;
    return {
      centreline: points.map((point) => flat(point, axes)),
      ends: [ring(start, odMm, axes), ring(end, odMm, axes)],
      nearMm: points.reduce((sum, point) => sum + dot(point, axes.towards), 0) / Math.max(1, points.length),
    };
  });
  return { label, odMm, pieces };
}

function flat(point: Vector, { right, up }: ViewAxes): FlatPoint {
  return { xMm: dot(point, right), yMm: dot(point, up) };
}

/** The tube's outside where it is cut square. */
function ring(frame: Frame, odMm: number, axes: ViewAxes): readonly FlatPoint[] {
  const across = binormalOf(frame);
  return Array.from({ length: RING_POINTS }, (_, at) => {
    const turn = radiansOf((360 * at) / RING_POINTS);
    const spoke = add(scale(frame.normal, Math.cos(turn)), scale(across, Math.sin(turn)));
    return flat(add(frame.point, scale(spoke, odMm / 2)), axes);
  });
}
