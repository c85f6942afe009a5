/** Whether the shelf can supply a bend, and which CLRs it offers for a tube. */

import type { Tube } from '../header/header.ts';
import { type Length, mmOf } from '../units/length.ts';
import type { StockBend, StockItem } from './stock-item.ts';

/** Sizes that differ by no more than this are the same size: 1 3/4 in and 44.45 mm, 1.65 mm and 0.065 in. */
export const SAME_SIZE_MM = 0.01;

/** Slack on an angle for the rounding of sums such as 22.5 + 22.5; far below what a saw can cut. */
export const SAME_ANGLE_DEG = 1e-9;

/**
 * `onShelf`: a whole piece with degrees enough is there. `tooFewDegrees`: pieces of this tube and CLR are there, but each has
 * too few degrees. `noneLeft`: such a bend is listed with a count of zero. `none`: nothing of this tube and CLR is listed.
 */
export type ShelfMatch = 'onShelf' | 'tooFewDegrees' | 'noneLeft' | 'none';

/**
 * Whether one stock bend can supply this bend, cut down if it has more degrees than needed.
 * Tube and CLR agree within 0.01 mm; materials are compared without regard to case and outer space.
 */
export function shelfMatch(
  stock: readonly StockItem[],
  bend: { readonly clr: Length; readonly angleDeg: number },
  tube: Tube,
): ShelfMatch {
  const clrMm = mmOf(bend.clr);
  const listed = stock.filter(
    (item): item is StockBend => item.kind === 'bend' && isSameSize(mmOf(item.clr), clrMm) && isOfTube(item, tube),
  );
  if (listed.length === 0) return 'none';
  const onHand = listed.filter(({ count }) => count > 0);
  if (onHand.length === 0) return 'noneLeft';
  return onHand.some(({ angleDeg }) => angleDeg >= bend.angleDeg - SAME_ANGLE_DEG) ? 'onShelf' : 'tooFewDegrees';
}

/** CLRs of the bends on hand for a tube, each once and as first typed, tightest first. */
export function clrsOnShelf(stock: readonly StockItem[], tube: Tube): readonly Length[] {
  const clrs: Length[] = [];
  for (const item of stock) {
    if (item.kind !== 'bend' || item.count === 0 || !isOfTube(item, tube)) continue;
    const clrMm = mmOf(item.clr);
    if (!clrs.some((clr) => isSameSize(mmOf(clr), clrMm))) clrs.push(item.clr);
  }
  return clrs.sort((a, b) => mmOf(a) - mmOf(b));
}

/** The largest angle among the bends on hand of this CLR and tube, in degrees; 0 when there is none. */
export function largestAngleDeg(stock: readonly StockItem[], clr: Length, tube: Tube): number {
  let largestDeg = 0;
  for (const item of stock) {
    if (item.kind !== 'bend' || item.count < 1 || !isOfTube(item, tube)) continue;
    if (isSameSize(mmOf(item.clr), mmOf(clr))) largestDeg = Math.max(largestDeg, item.angleDeg);
  }
  return largestDeg;
}

/** A name under which the shelf has a size of tube, and how many of its rows. */
export interface ShelfMaterial {
  readonly material: string;
  readonly rows: number;
}

/**
 * Other names of material under which the shelf has tube of this OD and wall, most rows first: "304" where the header says
 * "304 stainless". Names that differ in case and outer space alone are one.
 */
export function otherMaterials(stock: readonly StockItem[], tube: Tube): readonly ShelfMaterial[] {
  const found = new Map<string, ShelfMaterial>();
  for (const item of stock) {
    const key = comparable(item.material);
    if (!isOfSize(item, tube) || key === comparable(tube.material)) continue;
    const known = found.get(key);
    found.set(key, { material: known?.material ?? item.material.trim(), rows: (known?.rows ?? 0) + 1 });
  }
  return [...found.values()].sort((a, b) => b.rows - a.rows);
}

/** Whether a stock item is of this OD, wall and material. */
export function isOfTube(item: Tube, tube: Tube): boolean {
  return isOfSize(item, tube) && comparable(item.material) === comparable(tube.material);
}

/** Whether a stock item is of this OD and wall, whatever its material. */
export function isOfSize(item: Pick<Tube, 'od' | 'wall'>, tube: Pick<Tube, 'od' | 'wall'>): boolean {
  return isSameSize(mmOf(item.od), mmOf(tube.od)) && isSameSize(mmOf(item.wall), mmOf(tube.wall));
}

/** Whether two lengths in mm are one size, whatever unit each was typed in. */
export function isSameSize(aMm: number, bMm: number): boolean {
  // The last digits of a conversion must not decide about two sizes that are just 0.01 mm apart.
  return Math.abs(aMm - bMm) <= SAME_SIZE_MM + 1e-9;
}

/** A material's name as it is compared: case and outer space do not count. */
export function comparable(material: string): string {
  return material.trim().toLowerCase();
}
