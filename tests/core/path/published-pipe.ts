/** A pipe whose XYZ and LRA tables are both published, and a short way to write a point. */

import type { XyzPoint } from '../../../core/path/tables/bending-table.ts';

export const at = (xMm: number, yMm: number, zMm: number, clrMm: number | null = null): XyzPoint => ({
  xMm,
  yMm,
  zMm,
  clrMm,
});

/** PTC Creo Parametric help, "Example: Bend Location Report" and "Example: Bend Machine Report" (the same pipe), radius 560. */
export const PUBLISHED_PIPE: readonly XyzPoint[] = [
  at(0, 0, 0),
  at(0, 0, 1495.39, 560),
  at(0, 10100, 1495.39, 560),
  at(0, 10100, 3989.39, 560),
  at(5718.3, 10136.89, 3989.39),
];
