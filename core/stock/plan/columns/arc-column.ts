/** Ways to cut one stock bend: which bends come out of its arc, which straights stay on them, and what the legs are left for. */

import { degreesOf, radiansOf } from '../../../units/angle.ts';
import { isSameSize } from '../../shelf-match.ts';
import { hundredths } from '../cut-plan.ts';
import { cutWidthMm, FIT, type SawSettings } from '../cut-problem.ts';
import type { BendRow } from '../tube-problem.ts';
import { type Run, runLost } from './run.ts';
import type { Sizes } from './sizes.ts';

/** A straight that stays on a bend as its leg, as indexes of sizes. */
export interface Joined {
  readonly straight: number;
  readonly bend: number;
}

/**
 * Bends are cut from the ends of an arc inwards, so what is left of it is one stretch: at the first end, at the other end, or
 * between two bends that keep legs of both ends.
 */
export interface ArcColumn {
  /** Index among the tube's bend rows. */
  readonly row: number;
  /** Sizes of the bends, one entry a bend. None: the item is opened for its legs alone. */
  readonly bends: readonly number[];
  /** The straight that stays on at each end; both on the same bend only where that bend is the whole arc. */
  readonly joined: readonly [Joined | null, Joined | null];
  readonly restAt: 'first' | 'other' | 'between';
  /** What is left of the arc, mm; it goes on the shelf when `keepsRest`. */
  readonly restMm: number;
  readonly keepsRest: boolean;
  /** What is left of each leg to cut straights from. */
  readonly legs: readonly [Run, Run];
  /** Tube lost when no straight is cut from the legs, hundredths of a millimetre. */
  readonly lost: number;
}

/** Every way for one row of bends; the first `limit` of them. */
export function arcColumns(
  row: BendRow,
  index: number,
  { sizes, saw, limit }: { readonly sizes: Sizes; readonly saw: SawSettings; readonly limit: number },
): readonly ArcColumn[] {
  const columns: ArcColumn[] = [];
  for (const bends of waysToFillArc(row, sizes, { saw, limit })) {
    for (const joined of waysToJoin(row, bends, sizes)) {
      for (const restAt of placesOfRest(row, bends, joined)) {
        columns.push(arcColumn({ row, index, bends, joined, restAt, saw, sizes }));
        if (columns.length >= limit) return columns;
      }
    }
  }
  return columns.filter((column) => column.bends.length > 0 || suppliesLegs(column, sizes, saw));
}

/** Degrees of arc that one cut takes: `w / CLR` in radians. */
export function cutWidthDeg(clrMm: number, saw: SawSettings): number {
  return degreesOf(cutWidthMm(saw) / clrMm);
}

function waysToFillArc(
  row: BendRow,
  sizes: Sizes,
  { saw, limit }: { readonly saw: SawSettings; readonly limit: number },
): readonly (readonly number[])[] {
  const widthDeg = cutWidthDeg(row.clrMm, saw);
  const fitting = [...sizes.bends.keys()].filter((size) => isSameSize(sizes.bends[size]?.clrMm ?? 0, row.clrMm));
  const ways: (readonly number[])[] = [[]];
  const extend = (chosen: readonly number[], from: number, roomDeg: number): void => {
    for (let at = from; at < fitting.length && ways.length < limit; at += 1) {
      const size = fitting[at] ?? 0;
      const { angleDeg = 0, ids = [] } = sizes.bends[size] ?? {};
      const leftDeg = roomDeg - angleDeg - widthDeg;
      if (leftDeg < -FIT || chosen.filter((one) => one === size).length >= ids.length) continue;
      const more = [...chosen, size];
      ways.push(more);
      extend(more, at, leftDeg);
    }
  };
  // The last cut may run off the end of the arc.
  extend([], 0, row.angleDeg + widthDeg);
  return ways;
}

function waysToJoin(row: BendRow, bends: readonly number[], sizes: Sizes): readonly ArcColumn['joined'][] {
  const at = (side: 0 | 1) => [
    null,
    ...sizes.joints.filter(
      ({ straight, bend }) =>
        bends.includes(bend) && (sizes.straights[straight]?.lengthMm ?? 0) <= row.legsMm[side] + FIT,
    ),
  ];
  const isWhole = bends.length === 1 && (sizes.bends[bends[0] ?? 0]?.angleDeg ?? 0) >= row.angleDeg - FIT;
  const areLegsAlike = haveLegsAlike(row);
  const others = at(1);
  return at(0).flatMap((first, place) =>
    others
      .filter((other, otherPlace) => {
        // With legs alike, a bend the other way round is the same bend.
        if (areLegsAlike && otherPlace > place) return false;
        if (first === null || other === null) return true;
        const straights = sizes.straights[first.straight]?.ids.length ?? 0;
        if (first.straight === other.straight && straights < 2) return false;
        if (first.bend !== other.bend || bends.filter((bend) => bend === first.bend).length > 1) return true;
        return isWhole && isPair(sizes, first, other);
      })
      .map((other) => [first, other] as const),
  );
}

/** Whether some bend of the header has straights of these two sizes beside it. */
function isPair({ pairs }: Sizes, first: Joined, other: Joined): boolean {
  return pairs.some(
    ({ bend, straights: [one, two] }) =>
      bend === first.bend &&
      ((one === first.straight && two === other.straight) || (one === other.straight && two === first.straight)),
  );
}

function placesOfRest(
  row: BendRow,
  bends: readonly number[],
  [first, other]: ArcColumn['joined'],
): readonly ArcColumn['restAt'][] {
  if (first !== null && other !== null) return ['between'];
  if (first !== null || bends.length === 0) return ['other'];
  if (other !== null) return ['first'];
  return haveLegsAlike(row) ? ['other'] : ['other', 'first'];
}

function haveLegsAlike({ legsMm: [first, other] }: BendRow): boolean {
  return Math.abs(first - other) <= FIT;
}

interface Wanted extends Pick<ArcColumn, 'bends' | 'joined' | 'restAt'> {
  readonly row: BendRow;
  readonly index: number;
  readonly sizes: Sizes;
  readonly saw: SawSettings;
}

function arcColumn({ row, index, bends, joined, restAt, sizes, saw }: Wanted): ArcColumn {
  const bentDeg = bends.reduce((sum, size) => sum + (sizes.bends[size]?.angleDeg ?? 0), 0);
  const leftDeg = row.angleDeg - bentDeg - bends.length * cutWidthDeg(row.clrMm, saw);
  const restMm = leftDeg > FIT ? row.clrMm * radiansOf(leftDeg) : 0;
  const keepsRest = restMm > 0 && restMm >= saw.shortestRemnantMm - FIT;
  const leg = (side: 0 | 1): Run => {
    const one = joined[side];
    const lengthMm = row.legsMm[side] - (one === null ? 0 : (sizes.straights[one.straight]?.lengthMm ?? 0));
    const isAttached = keepsRest && (bends.length === 0 || restAt === (side === 0 ? 'first' : 'other'));
    return { kind: isAttached ? 'attached' : 'apart', lengthMm: Math.max(0, lengthMm) };
  };
  const legs = [leg(0), leg(1)] as const;
  const arcLostMm = row.clrMm * radiansOf(row.angleDeg - bentDeg) - (keepsRest ? restMm : 0);
  const lost = hundredths(arcLostMm) + runLost(legs[0], [], saw) + runLost(legs[1], [], saw);
  return { row: index, bends, joined, restAt, restMm, keepsRest, legs, lost };
}

function suppliesLegs({ legs }: ArcColumn, { straights }: Sizes, saw: SawSettings): boolean {
  const shortestMm = Math.min(...straights.map(({ lengthMm }) => lengthMm));
  return legs.some(({ lengthMm }) => shortestMm + cutWidthMm(saw) <= lengthMm + FIT);
}
