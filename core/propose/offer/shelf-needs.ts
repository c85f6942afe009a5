/** What the pieces of one proposal take from the shelf together: what one takes is not there for the next. */

import type { Tube } from '../../header/header.ts';
import type { StockNeed } from '../../moves/move.ts';
import { bendNeed } from '../../moves/ranking/stock-needs.ts';
import { isOfTube, isSameSize, SAME_ANGLE_DEG } from '../../stock/shelf-match.ts';
import type { StockItem } from '../../stock/stock-item.ts';
import { type Length, mmOf } from '../../units/length.ts';

export interface NeededBend {
  readonly clr: Length;
  readonly angleDeg: number;
}

/**
 * The largest first, each out of the smallest piece that has enough left, so that a 180 gives two of 90. The saw's kerf is left out, and so is that another choice of
 * pieces may now and then supply one more: the cut plan counts both.
 */
export function shelfNeeds(
  stock: readonly StockItem[],
  tube: Tube,
  straightsMm: readonly number[],
  bends: readonly NeededBend[],
): readonly StockNeed[] {
  const ofTube = stock.filter((item) => item.count > 0 && isOfTube(item, tube));
  const tubes = ofTube.flatMap((item) =>
    item.kind === 'straight' ? pieces(item.count, mmOf(item.length), straightsMm.length) : [],
  );
  const hasStraight = supplied(tubes, straightsMm);
  const hasBend = bends.map(() => false);
  for (const clrMm of new Set(bends.map(({ clr }) => mmOf(clr)))) {
    const own = bends.flatMap((bend, index) => (mmOf(bend.clr) === clrMm ? [{ ...bend, index }] : []));
    const bought = ofTube.flatMap((item) =>
      item.kind === 'bend' && isSameSize(mmOf(item.clr), clrMm) ? pieces(item.count, item.angleDeg, own.length) : [],
    );
    const anglesDeg = own.map(({ angleDeg }) => angleDeg);
    for (const [at, isThere] of supplied(bought, anglesDeg).entries()) hasBend[own[at]?.index ?? -1] = isThere;
  }
  return [
    ...straightsMm.map(
      (lengthMm, i): StockNeed => ({ kind: 'straight', lengthMm, isOnShelf: hasStraight[i] === true }),
    ),
    ...bends.map((bend, i): StockNeed => {
      const need = bendNeed(stock, tube, bend);
      return need.kind === 'bend' && need.onShelf === 'onShelf' && hasBend[i] !== true
        ? { ...need, onShelf: 'noneLeft' }
        : need;
    }),
  ];
}

/** No more of a row than could be wanted. */
function pieces(count: number, size: number, most: number): readonly number[] {
  return Array.from({ length: Math.min(count, most) }, () => size);
}

/** Which of the sizes wanted can be had out of these pieces, in the order wanted. */
function supplied(stocked: readonly number[], wanted: readonly number[]): readonly boolean[] {
  const left = [...stocked];
  const isThere = wanted.map(() => false);
  const order = wanted.map((size, index) => ({ size, index })).sort((a, b) => b.size - a.size);
  for (const { size, index } of order) {
    let best = -1;
    for (const [at, has] of left.entries()) {
      if (has >= size - SAME_ANGLE_DEG && (best < 0 || has < (left[best] as number))) best = at;
    }
    if (best < 0) continue;
    left[best] = (left[best] as number) - size;
    isThere[index] = true;
  }
  return isThere;
}
