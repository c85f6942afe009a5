/**
 * A header as flat outlines for a standard view. Seen in parallel, the outline of a round tube is its centreline drawn as wide
 * as its OD, with the ellipses of its ends; so a few strokes give the true picture, on screen and on paper.
 */

import { line as lineThrough } from 'd3';
import { centrePoints, type Vector } from '../../../core/index.ts';
import { svgPath } from '../annotations/annotations.ts';
import { type PicturePoint, type PictureSize, pixelsPerMm, projector, type ViewCamera } from '../camera/view-camera.ts';
import { bodyOutline, mouthOutline } from '../scene/body-outline.ts';
import type { Scene, ScenePiece, SceneTube } from '../scene/scene.ts';
import { ringPoints } from '../scene/tube-surface.ts';

export interface FlatPiece {
  readonly key: string;
  readonly primaryId: string;
  readonly pieceId: string;
  /** The centreline in SVG notation, to be drawn `widthPx` wide with blunt ends. */
  readonly centreline: string;
  readonly widthPx: number;
  /** The ellipses at both ends. */
  readonly ends: readonly [string, string];
  readonly isSelected: boolean;
  readonly isInHand: boolean;
}

export interface FlatOutline {
  readonly key: string;
  readonly kind: 'port' | 'inlet' | 'obstacle';
  readonly path: string;
}

export interface FlatPicture {
  /** The farthest first, so that what is nearer covers what is behind. */
  readonly pieces: readonly FlatPiece[];
  readonly outlines: readonly FlatOutline[];
}

const through = lineThrough<PicturePoint>(
  ({ x }) => x,
  ({ y }) => y,
).digits(1);

export function flatPicture(scene: Scene, camera: ViewCamera, size: PictureSize): FlatPicture {
  const project = projector(camera, size);
  const perMm = pixelsPerMm(camera, size);
  const pieces = scene.tubes.flatMap((tube) =>
    tube.pieces.map((piece) => flatPiece({ scene, tube, piece }, project, perMm)),
  );
  const outlines = [
    ...scene.mouths.map(
      (mouth): FlatOutline => ({
        key: `${mouth.kind} ${mouth.id}`,
        kind: mouth.kind,
        path: runsPath(mouthOutline(mouth), project),
      }),
    ),
    ...scene.bodies.map(
      (body): FlatOutline => ({
        key: `body ${body.id}`,
        kind: 'obstacle',
        path: runsPath(bodyOutline(body, scene.bounds), project),
      }),
    ),
  ];
  return { pieces: pieces.sort((a, b) => a.nearMm - b.nearMm).map(({ flat }) => flat), outlines };
}

function runsPath(runs: readonly (readonly Vector[])[], project: (point: Vector) => PicturePoint): string {
  return runs.map((run) => svgPath(run, project)).join('');
}

interface PieceInScene {
  readonly scene: Scene;
  readonly tube: SceneTube;
  readonly piece: ScenePiece;
}

function flatPiece(
  { scene, tube, piece }: PieceInScene,
  project: (point: Vector) => PicturePoint,
  perMm: number,
): { readonly flat: FlatPiece; readonly nearMm: number } {
  const points = centrePoints(piece.spans).map(project);
  const ring = (frame: ScenePiece['start']) => `${svgPath(ringPoints(frame, tube.odMm / 2), project)}Z`;
  const flat: FlatPiece = {
    key: `${tube.primaryId} ${piece.pieceId}`,
    primaryId: tube.primaryId,
    pieceId: piece.pieceId,
    centreline: through(points) ?? '',
    widthPx: tube.odMm * perMm,
    ends: [ring(piece.start), ring(piece.end)],
    isSelected: piece.pieceId === scene.selection.pieceId,
    isInHand: tube.primaryId === scene.selection.primaryId,
  };
  const nearMm = points.reduce((sum, point) => sum + point.nearMm, 0) / Math.max(1, points.length);
  return { flat, nearMm };
}
