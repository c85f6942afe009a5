/** Names and figures over the picture: which of them are shown, and where they stand. */

import { type PictureSize, pixelsPerMm, projector, type ViewCamera } from '../camera/view-camera.ts';
import { namePoint } from '../scene/describe-scene.ts';
import type { Scene, SceneSpan } from '../scene/scene.ts';
import { isKept, type SectionCut } from '../scene/section-cut.ts';

export interface PictureLabel {
  readonly key: string;
  readonly kind: 'primary' | 'gap' | 'closure';
  readonly text: string;
  /** Middle of the text. */
  readonly x: number;
  readonly y: number;
  /** What the label is of; where that is elsewhere a thin line leads to it. */
  readonly atX: number;
  readonly atY: number;
  readonly isInHand: boolean;
}

export interface AtRest {
  /** The primary under the pointer, which is named as well. */
  readonly hoveredId: string | null;
}

export interface PictureFrame {
  readonly camera: ViewCamera;
  readonly size: PictureSize;
  /** Height of the letters. */
  readonly textPx: number;
  /** What lies beyond the cut is not named either; null: nothing is cut away. */
  readonly section: SectionCut | null;
  /** `all`: every name and figure where it belongs, as on paper; else the few that matter now, set beside the header. */
  readonly labelled: 'all' | AtRest;
}

/** Width and height of the corner with the axes, in heights of its text. */
export const CORNER_TEXTS = 11;

/** More would be read by nobody: the name in hand, and the figures that press most. */
const MOST_AT_REST = 3;

export function pictureLabels(scene: Scene, frame: PictureFrame): readonly PictureLabel[] {
  const { labelled, textPx, section } = frame;
  const names = scene.tubes
    .filter(({ start }) => isKept(start.point, section))
    .map((tube) => nameLabel(tube, scene, frame));
  const spans = scene.spans.filter(({ from, to }) => isKept(from, section) && isKept(to, section));
  if (labelled === 'all') {
    return spreadLabels([...joinNames(names, textPx), ...spans.map((span) => figureLabel(span, frame))], textPx);
  }
  const { primaryId } = scene.selection;
  const named = names.filter(({ key }) => key === nameKey(primaryId) || key === nameKey(labelled.hoveredId));
  const pressing = spans.toSorted((a, b) => pressOrder(a, primaryId) - pressOrder(b, primaryId) || a.rank - b.rank);
  const figures = pressing.slice(0, MOST_AT_REST - Math.min(1, named.length));
  const shown = [...named, ...figures.map((span) => figureLabel(span, frame))];
  return spreadLabels(setOutside(shown, scene, frame), textPx);
}

/** What concerns the primary in hand comes first, and there where it misses its inlet. */
function pressOrder({ kind, primaryIds }: SceneSpan, primaryId: string | null): number {
  const isInHand = primaryId !== null && primaryIds.includes(primaryId);
  return (isInHand ? 0 : 2) + (kind === 'closure' ? 0 : 1);
}

/** Ports in a row seen along the row are one point: one label names them all. */
function joinNames(names: readonly PictureLabel[], textPx: number): readonly PictureLabel[] {
  const isSamePlace = (a: PictureLabel, b: PictureLabel) => Math.hypot(a.atX - b.atX, a.atY - b.atY) < textPx / 2;
  return names
    .filter((name, index) => names.findIndex((other) => isSamePlace(other, name)) === index)
    .map((name) => {
      const here = names.filter((other) => isSamePlace(other, name));
      return {
        ...name,
        text: namesInOne(here.map(({ text }) => text)),
        isInHand: here.some(({ isInHand }) => isInHand),
      };
    });
}

/** Numbers that follow one another as their first and last, other names one after the other. */
function namesInOne(names: readonly string[]): string {
  const inRow = names.toSorted((a, b) => Number(a) - Number(b));
  const isRun = inRow.every((name, index) => /^\d+$/.test(name) && Number(name) === Number(inRow[0]) + index);
  return isRun && names.length > 2 ? `${inRow[0]}\u2013${inRow.at(-1)}` : names.join(', ');
}

const nameKey = (primaryId: string | null) => `name ${primaryId}`;

function nameLabel(tube: Scene['tubes'][number], scene: Scene, { camera, size }: PictureFrame): PictureLabel {
  const { x, y } = projector(camera, size)(namePoint(tube));
  const isInHand = tube.primaryId === scene.selection.primaryId;
  return { key: nameKey(tube.primaryId), kind: 'primary', text: tube.name, x, y, atX: x, atY: y, isInHand };
}

function figureLabel({ key, kind, text, from, to }: SceneSpan, { camera, size, textPx }: PictureFrame): PictureLabel {
  const project = projector(camera, size);
  const [a, b] = [project(from), project(to)];
  const [atX, atY] = [(a.x + b.x) / 2, (a.y + b.y) / 2];
  return { key, kind, text, x: atX, y: atY - 1.4 * textPx, atX, atY, isInHand: false };
}

/** Beside all that is drawn, each on the side that it is nearer to, or the one with room; within the picture where neither has any. */
function setOutside(
  labels: readonly PictureLabel[],
  { reaches }: Scene,
  { camera, size, textPx }: PictureFrame,
): readonly PictureLabel[] {
  const project = projector(camera, size);
  const perMm = pixelsPerMm(camera, size);
  let [left, right] = [size.widthPx, 0];
  for (const { point, reachMm } of reaches) {
    const { x } = project(point);
    left = Math.min(left, x - reachMm * perMm);
    right = Math.max(right, x + reachMm * perMm);
  }
  return labels.map((label) => {
    const half = widthPx(label.text, textPx) / 2;
    const [roomLeft, roomRight] = [left - textPx - 2 * half, size.widthPx - right - textPx - 2 * half];
    const y = Math.max(textPx, Math.min(size.heightPx - textPx, label.atY));
    // The axes have the lower left corner.
    const isAtAxes = y > size.heightPx - CORNER_TEXTS * textPx;
    const isNearLeft = label.atX < (left + right) / 2 && !isAtAxes;
    const isLeft = isNearLeft ? roomLeft >= 0 || roomRight < 0 : roomRight < 0 && roomLeft >= 0 && !isAtAxes;
    const x = isLeft ? Math.max(half, left - half - textPx) : Math.min(size.widthPx - half, right + half + textPx);
    return { ...label, x, y };
  });
}

/** Width of a text by its length; enough to keep labels apart. */
function widthPx(text: string, textPx: number): number {
  return (text.length + 1) * 0.58 * textPx;
}

/** Moves labels apart that would cover each other: each goes up or down to the nearest free place. Cost: square of their number. */
export function spreadLabels(labels: readonly PictureLabel[], textPx: number): readonly PictureLabel[] {
  const placed: PictureLabel[] = [];
  const rowPx = 1.35 * textPx;
  const isFree = (label: PictureLabel, y: number) =>
    placed.every(
      (other) =>
        Math.abs(other.y - y) >= rowPx ||
        Math.abs(other.x - label.x) >= (widthPx(other.text, textPx) + widthPx(label.text, textPx)) / 2,
    );
  for (const label of labels) {
    let y = label.y;
    for (let step = 1; !isFree(label, y) && step <= 2 * labels.length; step += 1) {
      y = label.y + (step % 2 === 1 ? 1 : -1) * Math.ceil(step / 2) * rowPx;
    }
    placed.push({ ...label, y });
  }
  return placed;
}
