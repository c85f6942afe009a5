/** What is written and drawn over the picture of a header: names, gaps, misses, the clocking dial and the axes. */

import { addScaled, clockBy, type Frame, pointAt, type Vector } from '../../../core/index.ts';
import { type PicturePoint, projector, screenAxes, type ViewCamera } from '../camera/view-camera.ts';
import type { Scene, SceneDial, SceneTube } from '../scene/scene.ts';
import { isKept } from '../scene/section-cut.ts';
import { ringPoints } from '../scene/tube-surface.ts';
import { type PictureFrame, type PictureLabel, pictureLabels } from './labels.ts';

export interface PictureLine {
  readonly key: string;
  readonly kind: 'gap' | 'closure';
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
}

/** Paths in SVG notation. */
export interface PictureDial {
  readonly circle: string;
  /** Where clocking 0 would curl to. */
  readonly zero: string;
  /** Where the bend curls to. */
  readonly hand: string;
  /** From the one to the other, the way of the clocking. */
  readonly sweep: string;
}

export interface PictureAxis {
  readonly name: string;
  readonly x: number;
  readonly y: number;
}

export interface Annotations {
  readonly labels: readonly PictureLabel[];
  readonly lines: readonly PictureLine[];
  readonly dial: PictureDial | null;
  /** Centrelines of tubes as they are before the move that is shown, in SVG notation. */
  readonly before: readonly { readonly key: string; readonly path: string }[];
  /** Ends of the three axes from a common origin, for the corner of the picture; a length of 1 is square to the eye. */
  readonly axes: readonly PictureAxis[];
}

export function annotate(scene: Scene, frame: PictureFrame): Annotations {
  const { camera, size, section } = frame;
  const project = projector(camera, size);
  const spans = scene.spans.filter(({ from, to }) => isKept(from, section) && isKept(to, section));
  const lines = spans.map(({ key, kind, from, to }): PictureLine => {
    const [a, b] = [project(from), project(to)];
    return { key, kind, x1: a.x, y1: a.y, x2: b.x, y2: b.y };
  });
  return {
    labels: pictureLabels(scene, frame),
    lines,
    before: scene.before.map((tube) => ({ key: tube.primaryId, path: svgPath(centreline(tube), project) })),
    dial: scene.dial === null ? null : pictureDial(scene.dial, project),
    axes: pictureAxes(camera),
  };
}

const LINE_STEPS = 12;

function centreline({ pieces }: SceneTube): readonly Vector[] {
  return pieces.flatMap(({ spans }) =>
    spans.flatMap((span) => Array.from({ length: LINE_STEPS + 1 }, (_, step) => pointAt(span, step / LINE_STEPS))),
  );
}

const DIAL_RADIUS_ODS = 1.15;
const SWEEP_STEP_DEG = 6;

function pictureDial({ frame, clockingDeg, odMm }: SceneDial, project: (point: Vector) => PicturePoint): PictureDial {
  const radiusMm = DIAL_RADIUS_ODS * odMm;
  const at = (deg: number, share = 1) => handPoint(frame, deg, radiusMm * share);
  // The tube itself would hide what is drawn across it.
  const fromTube = 0.5 / DIAL_RADIUS_ODS;
  const steps = Math.max(1, Math.ceil(Math.abs(clockingDeg) / SWEEP_STEP_DEG));
  const sweep = Array.from({ length: steps + 1 }, (_, step) => at((clockingDeg * step) / steps, 0.8));
  return {
    circle: svgPath(ringPoints(frame, radiusMm, 48), project),
    zero: svgPath([at(0, fromTube), at(0)], project),
    hand: svgPath([at(clockingDeg, fromTube), at(clockingDeg, 1.2)], project),
    sweep: svgPath(sweep, project),
  };
}

function handPoint(frame: Frame, clockingDeg: number, lengthMm: number): Vector {
  return addScaled(frame.point, clockBy(frame, clockingDeg).normal, lengthMm);
}

/** A run of points as an SVG path, to a tenth of a pixel. */
export function svgPath(points: readonly Vector[], project: (point: Vector) => PicturePoint): string {
  return points
    .map((point, index) => {
      const { x, y } = project(point);
      return `${index === 0 ? 'M' : 'L'}${tenth(x)} ${tenth(y)}`;
    })
    .join('');
}

export function tenth(px: number): number {
  return Math.round(px * 10) / 10;
}

function pictureAxes(camera: ViewCamera): readonly PictureAxis[] {
  const { right, up } = screenAxes(camera);
  return [
    { name: 'forward', x: right.x, y: -up.x },
    { name: 'outboard', x: right.y, y: -up.y },
    { name: 'up', x: right.z, y: -up.z },
  ];
}
