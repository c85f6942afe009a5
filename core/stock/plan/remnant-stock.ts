/** What a remnant is as stock: a straight by its length, a bend by its angle and what is left of its legs. */

import { degreesOf, radiansOf } from '../../units/angle.ts';
import type { CutStock, Stretch } from './cut-plan.ts';
import { FIT, type StockRow } from './cut-problem.ts';

/** The stock row that a stretch of an opened item makes when it goes back on the shelf; one of it, and paid for. */
export function remnantRow(row: StockRow, stretch: Stretch, id: string): StockRow {
  const kept = { id, tube: row.tube, count: 1, cost: 0, isRemnant: true } as const;
  const { fromMm, toMm } = stretch;
  if (row.kind === 'straight') return { ...kept, kind: 'straight', lengthMm: toMm - fromMm };
  const arcFromMm = row.legsMm[0];
  const arcToMm = arcFromMm + row.clrMm * radiansOf(row.angleDeg);
  const arcMm = Math.min(toMm, arcToMm) - Math.max(fromMm, arcFromMm);
  if (arcMm <= FIT) return { ...kept, kind: 'straight', lengthMm: toMm - fromMm };
  const legsMm = [Math.max(0, arcFromMm - fromMm), Math.max(0, toMm - arcToMm)] as const;
  return { ...kept, kind: 'bend', clrMm: row.clrMm, angleDeg: degreesOf(arcMm / row.clrMm), legsMm };
}

/** The item with one of its remnants cut up further: the stretches of that remnant, as it was laid out by itself, in its place. */
export function withRemnantCut(item: CutStock, remnant: number, cut: readonly Stretch[]): CutStock {
  const place = item.stretches[remnant];
  if (place === undefined) return item;
  const moved = cut.map((stretch) => ({
    ...stretch,
    fromMm: place.fromMm + stretch.fromMm,
    toMm: place.fromMm + stretch.toMm,
  }));
  return { ...item, stretches: [...item.stretches.slice(0, remnant), ...moved, ...item.stretches.slice(remnant + 1)] };
}
