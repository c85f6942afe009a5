/** Where to put the saw: a place along a stock item as it is measured and marked on the tube. */

import { centrelineArcMm, insideArcMm, outsideArcMm } from '../../../length/bend-arcs.ts';
import { degreesOf } from '../../../units/angle.ts';
import { FIT, type StockRow } from '../cut-problem.ts';

/**
 * On a leg or on straight stock the distance from that end of the tube, mm. On an arc the angle from where the arc begins at
 * the first leg, and how far from there along the outside and the inside of the bend: `(CLR +- OD/2) angle`.
 */
export type SawMark =
  | { readonly on: 'straight' | 'firstLeg' | 'otherLeg'; readonly fromEndMm: number }
  | {
      readonly on: 'arc';
      readonly angleDeg: number;
      /** mm along the outside of the bend; with a tape from the first end of the tube, add the leg. */
      readonly outsideMm: number;
      readonly insideMm: number;
      /** The first leg, mm: what is between the end of the tube and where the arc begins. */
      readonly legMm: number;
    };

/** @param atMm along the centreline from the stock item's first end, as stretches are */
export function sawMark(row: StockRow, atMm: number): SawMark {
  if (row.kind === 'straight') return { on: 'straight', fromEndMm: atMm };
  const [legMm, otherLegMm] = row.legsMm;
  const arcMm = centrelineArcMm(row.clrMm, row.angleDeg);
  if (atMm < legMm - FIT) return { on: 'firstLeg', fromEndMm: atMm };
  if (atMm > legMm + arcMm + FIT) return { on: 'otherLeg', fromEndMm: legMm + arcMm + otherLegMm - atMm };
  const angleDeg = degreesOf(Math.min(arcMm, Math.max(0, atMm - legMm)) / row.clrMm);
  const { odMm } = row.tube;
  return {
    on: 'arc',
    angleDeg,
    outsideMm: outsideArcMm(row.clrMm, odMm, angleDeg),
    insideMm: insideArcMm(row.clrMm, odMm, angleDeg),
    legMm,
  };
}
