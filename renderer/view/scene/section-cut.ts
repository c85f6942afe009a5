/** A section: the header cut by a plane square to one axis, and the part on one side taken away. */

import type { Bounds } from './scene.ts';

export type SectionAxis = 'x' | 'y' | 'z';

export interface SectionCut {
  readonly axis: SectionAxis;
  /** Place of the plane on the axis, in millimetres. */
  readonly atMm: number;
  /** Which side stays: the one with smaller or with larger values. */
  readonly keeps: 'below' | 'above';
}

/** What stays has `normal . point + constant >= 0`. */
export interface CutPlane {
  readonly normal: { readonly x: number; readonly y: number; readonly z: number };
  readonly constant: number;
}

export function cutPlane({ axis, atMm, keeps }: SectionCut): CutPlane {
  const sign = keeps === 'below' ? -1 : 1;
  return {
    normal: { x: axis === 'x' ? sign : 0, y: axis === 'y' ? sign : 0, z: axis === 'z' ? sign : 0 },
    constant: -sign * atMm,
  };
}

/** Whether a point is on the side that stays; all are where nothing is cut. */
export function isKept(point: Readonly<Record<SectionAxis, number>>, cut: SectionCut | null): boolean {
  if (cut === null) return true;
  return cut.keeps === 'below' ? point[cut.axis] <= cut.atMm : point[cut.axis] >= cut.atMm;
}

/** A cut through the middle of the bounds; what is nearer to the eye in the usual view is taken away. */
export function middleCut(axis: SectionAxis, bounds: Bounds | null): SectionCut {
  return { axis, atMm: bounds === null ? 0 : (bounds.low[axis] + bounds.high[axis]) / 2, keeps: 'below' };
}

/** The place kept within the bounds, which may have shrunk since. */
export function withinBounds(cut: SectionCut, bounds: Bounds | null): SectionCut {
  if (bounds === null) return cut;
  return { ...cut, atMm: Math.min(bounds.high[cut.axis], Math.max(bounds.low[cut.axis], cut.atMm)) };
}
