/** What there is to see of a header in space, without saying how it is drawn; millimetres in the header frame. */

import type { Frame, Span, Vector } from '../../../core/index.ts';

export interface ScenePiece {
  readonly pieceId: string;
  readonly spans: readonly Span[];
  /** At the joint before the piece; the normal is that of the bend before it. */
  readonly start: Frame;
  readonly end: Frame;
}

/** One primary, as far as its path is known. */
export interface SceneTube {
  readonly primaryId: string;
  readonly name: string;
  readonly odMm: number;
  readonly wallMm: number;
  readonly pieces: readonly ScenePiece[];
  readonly start: Frame;
  readonly end: Frame;
  /** False: the port is not measured, so the tube is drawn beside the others. */
  readonly isPlaced: boolean;
}

/** A port's flange face or a collector inlet: a round opening with a direction of travel through it. */
export interface SceneMouth {
  readonly kind: 'port' | 'inlet';
  readonly id: string;
  readonly name: string;
  readonly frame: Frame;
  readonly odMm: number;
}

export type SceneBody =
  | { readonly kind: 'box'; readonly id: string; readonly name: string; readonly low: Vector; readonly high: Vector }
  | {
      readonly kind: 'cylinder';
      readonly id: string;
      readonly name: string;
      readonly from: Vector;
      readonly to: Vector;
      readonly radiusMm: number;
    }
  | {
      readonly kind: 'plane';
      readonly id: string;
      readonly name: string;
      readonly at: Vector;
      /** Length 1, towards the side where the tubes are. */
      readonly normal: Vector;
    };

/** Two points with a figure between them: a gap under the wanted one, or an end that misses its inlet. */
export interface SceneSpan {
  readonly key: string;
  readonly kind: 'gap' | 'closure';
  readonly from: Vector;
  readonly to: Vector;
  /** The figure with its unit, in the header's display unit. */
  readonly text: string;
  /** Whose it is: two primaries, or one and something else. */
  readonly primaryIds: readonly string[];
  /** The smaller, the more it presses. */
  readonly rank: number;
}

/** The clocking of the selected bend, at the joint before it. */
export interface SceneDial {
  readonly frame: Frame;
  readonly clockingDeg: number;
  readonly odMm: number;
}

export interface Bounds {
  readonly low: Vector;
  readonly high: Vector;
}

export interface SceneSelection {
  readonly primaryId: string | null;
  readonly pieceId: string | null;
}

export interface Scene {
  readonly tubes: readonly SceneTube[];
  /** Tubes as they are now, where `tubes` are what a move would make of them. */
  readonly before: readonly SceneTube[];
  readonly mouths: readonly SceneMouth[];
  readonly bodies: readonly SceneBody[];
  readonly spans: readonly SceneSpan[];
  readonly dial: SceneDial | null;
  readonly selection: SceneSelection;
  /** Of tubes, mouths and bodies but planes; null when there is nothing. */
  readonly bounds: Bounds | null;
  /** What a picture of everything must hold: closer around the header than its bounds are. */
  readonly reaches: readonly SceneReach[];
  /** What is not drawn as it is, and why, in words. */
  readonly notes: readonly string[];
}

/** A ball that must be in the picture. */
export interface SceneReach {
  readonly point: Vector;
  readonly reachMm: number;
}

/** The bounds that hold both; null stands for nothing. */
export function joinBounds(a: Bounds | null, b: Bounds | null): Bounds | null {
  if (a === null || b === null) return a ?? b;
  return {
    low: { x: Math.min(a.low.x, b.low.x), y: Math.min(a.low.y, b.low.y), z: Math.min(a.low.z, b.low.z) },
    high: { x: Math.max(a.high.x, b.high.x), y: Math.max(a.high.y, b.high.y), z: Math.max(a.high.z, b.high.z) },
  };
}

/** The cube about a point that reaches `reachMm` each way. */
export function boundsAbout(point: Vector, reachMm: number): Bounds {
  return {
    low: { x: point.x - reachMm, y: point.y - reachMm, z: point.z - reachMm },
    high: { x: point.x + reachMm, y: point.y + reachMm, z: point.z + reachMm },
  };
}
