/** Where the header is looked at from, how that changes by hand or key, and where things then stand on screen. */

import { add, addScaled, dot, radiansOf, scale, subtract, type Vector } from '../../../core/index.ts';
import type { SceneReach } from '../scene/scene.ts';

/** Parallel projection, so that a standard view can be measured in: no perspective. */
export interface ViewCamera {
  /** In the middle of the picture; millimetres. */
  readonly target: Vector;
  /** Of the eye about the vertical: 0 in front of the vehicle, 90 on its outboard side. */
  readonly azimuthDeg: number;
  /** Of the eye above the horizontal, -90 to 90. */
  readonly elevationDeg: number;
  /** From the lower edge of the picture to the upper one; above zero. */
  readonly heightMm: number;
}

export type ViewAngles = Pick<ViewCamera, 'azimuthDeg' | 'elevationDeg'>;

/** Either all of the header from these angles, or just where the hand has put it. */
export type Standpoint =
  | { readonly kind: 'all'; readonly angles: ViewAngles }
  | { readonly kind: 'free'; readonly camera: ViewCamera };

export type StandardView = 'front' | 'side' | 'top' | 'threeQuarter';

export interface NamedView extends ViewAngles {
  readonly id: StandardView;
  readonly name: string;
}

const THREE_QUARTER: NamedView = { id: 'threeQuarter', name: 'Three-quarter', azimuthDeg: 50, elevationDeg: 28 };

/** The three that a drawing shows: square to the axes. */
export const FLAT_VIEWS: readonly NamedView[] = [
  { id: 'front', name: 'Front', azimuthDeg: 0, elevationDeg: 0 },
  { id: 'side', name: 'Side', azimuthDeg: 90, elevationDeg: 0 },
  { id: 'top', name: 'Top', azimuthDeg: 180, elevationDeg: 90 },
];

export const STANDARD_VIEWS: readonly NamedView[] = [THREE_QUARTER, ...FLAT_VIEWS];
export const FIRST_VIEW: ViewAngles = THREE_QUARTER;

/** Room left around the header, as a share of the picture. */
const MARGIN = 1.16;
const NOTHING: readonly SceneReach[] = [{ point: { x: 0, y: 0, z: 0 }, reachMm: 150 }];
const HEIGHT_LIMITS_MM = [5, 1e5] as const;

export interface ScreenAxes {
  /** To the right of the screen, up it, and out of it towards the eye; each of length 1. */
  readonly right: Vector;
  readonly up: Vector;
  readonly towards: Vector;
}

export function screenAxes({ azimuthDeg, elevationDeg }: ViewAngles): ScreenAxes {
  const [turn, lift] = [radiansOf(azimuthDeg), radiansOf(elevationDeg)];
  const [cosTurn, sinTurn, cosLift, sinLift] = [Math.cos(turn), Math.sin(turn), Math.cos(lift), Math.sin(lift)];
  return {
    right: { x: -sinTurn, y: cosTurn, z: 0 },
    up: { x: -sinLift * cosTurn, y: -sinLift * sinTurn, z: cosLift },
    towards: { x: cosLift * cosTurn, y: cosLift * sinTurn, z: sinLift },
  };
}

export interface PictureSize {
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Room along the edges of a picture that is kept for what stands beside the header. */
export interface Insets {
  readonly leftPx: number;
  readonly rightPx: number;
  readonly bottomPx: number;
}

const NO_INSETS: Insets = { leftPx: 0, rightPx: 0, bottomPx: 0 };

/** The camera at these angles with everything in the picture, clear of the insets; nothing to hold: a space of 300 mm. */
export function fitCamera(
  angles: ViewAngles,
  reaches: readonly SceneReach[],
  size: PictureSize,
  insets: Insets = NO_INSETS,
): ViewCamera {
  const { right, up, towards } = screenAxes(angles);
  const held = reaches.length === 0 ? NOTHING : reaches;
  const across = extent(held, right);
  const upright = extent(held, up);
  const deep = extent(held, towards);
  const [widthPx, heightPx] = [Math.max(1, size.widthPx), Math.max(1, size.heightPx)];
  const freeWidthPx = Math.max(widthPx / 4, widthPx - insets.leftPx - insets.rightPx);
  const freeHeightPx = Math.max(heightPx / 4, heightPx - insets.bottomPx);
  const fitMmPerPx = MARGIN * Math.max(upright.length / freeHeightPx, across.length / freeWidthPx);
  const heightMm = withinLimits(fitMmPerPx * heightPx);
  // The middle of the header goes to the middle of the free room, which is beside that of the picture.
  const mmPerPx = heightMm / heightPx;
  const middle = {
    across: across.middle - ((insets.leftPx - insets.rightPx) / 2) * mmPerPx,
    upright: upright.middle - (insets.bottomPx / 2) * mmPerPx,
  };
  const target = add(addScaled(scale(right, middle.across), up, middle.upright), scale(towards, deep.middle));
  const { azimuthDeg, elevationDeg } = angles;
  return { target, azimuthDeg, elevationDeg, heightMm };
}

/** How far the balls reach along an axis. */
function extent(reaches: readonly SceneReach[], axis: Vector): { readonly middle: number; readonly length: number } {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const { point, reachMm } of reaches) {
    const along = dot(point, axis);
    low = Math.min(low, along - reachMm);
    high = Math.max(high, along + reachMm);
  }
  return { middle: (low + high) / 2, length: high - low };
}

function withinLimits(heightMm: number): number {
  return Math.min(HEIGHT_LIMITS_MM[1], Math.max(HEIGHT_LIMITS_MM[0], heightMm));
}

export function turnCamera(camera: ViewCamera, byDeg: { readonly around: number; readonly over: number }): ViewCamera {
  const azimuthDeg = (camera.azimuthDeg + byDeg.around + 720) % 360;
  return { ...camera, azimuthDeg, elevationDeg: Math.max(-90, Math.min(90, camera.elevationDeg + byDeg.over)) };
}

/** `factor` above 1 comes nearer. */
export function zoomCamera(camera: ViewCamera, factor: number): ViewCamera {
  return { ...camera, heightMm: withinLimits(camera.heightMm / factor) };
}

/** Moves what is seen by so much of the picture's height, to the right and up. */
export function panCamera(camera: ViewCamera, by: { readonly right: number; readonly up: number }): ViewCamera {
  const { right, up } = screenAxes(camera);
  const target = addScaled(camera.target, right, -by.right * camera.heightMm);
  return { ...camera, target: addScaled(target, up, -by.up * camera.heightMm) };
}

export interface PicturePoint {
  /** Pixels from the left and from the top. */
  readonly x: number;
  readonly y: number;
  /** Millimetres towards the eye from the middle of the picture. */
  readonly nearMm: number;
}

/** Pixels a millimetre. */
export function pixelsPerMm(camera: ViewCamera, { heightPx }: PictureSize): number {
  return heightPx / camera.heightMm;
}

/** Where points of space stand in the picture. */
export function projector(camera: ViewCamera, size: PictureSize): (point: Vector) => PicturePoint {
  const { right, up, towards } = screenAxes(camera);
  const perMm = pixelsPerMm(camera, size);
  return (point) => {
    const from = subtract(point, camera.target);
    return {
      x: size.widthPx / 2 + dot(from, right) * perMm,
      y: size.heightPx / 2 - dot(from, up) * perMm,
      nearMm: dot(from, towards),
    };
  };
}

export interface ViewKey {
  readonly key: string;
  readonly shift: boolean;
}

const KEY_TURN_DEG = 10;
const KEY_PAN = 0.08;
export const KEY_ZOOM = 1.2;

/** What a key does to the camera: arrows turn, with Shift they move, + and - zoom. Null: nothing. */
export function cameraAfterKey(camera: ViewCamera, { key, shift }: ViewKey): ViewCamera | null {
  const arrow = ARROWS.get(key);
  if (arrow !== undefined) {
    const [right, up] = arrow;
    // The header follows the arrow, as it would follow a hand.
    if (shift) return panCamera(camera, { right: right * KEY_PAN, up: up * KEY_PAN });
    return turnCamera(camera, { around: -right * KEY_TURN_DEG, over: -up * KEY_TURN_DEG });
  }
  if (key === '+' || key === '=') return zoomCamera(camera, KEY_ZOOM);
  if (key === '-' || key === '_') return zoomCamera(camera, 1 / KEY_ZOOM);
  return null;
}

const ARROWS: ReadonlyMap<string, readonly [right: number, up: number]> = new Map([
  ['ArrowLeft', [-1, 0]],
  ['ArrowRight', [1, 0]],
  ['ArrowUp', [0, 1]],
  ['ArrowDown', [0, -1]],
]);
