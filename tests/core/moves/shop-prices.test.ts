/** A shop's own prices in place of the order in which costs count. */

import { describe, expect, it } from 'vitest';
import type { Header } from '../../../core/header/header.ts';
import type { Move } from '../../../core/moves/move.ts';
import type { MoveOptions } from '../../../core/moves/question.ts';
import type { ShopPrices } from '../../../core/moves/ranking/shop-prices.ts';
import { suggestHeaderMoves } from '../../../core/moves/suggest-header-moves.ts';
import { suggestMoves } from '../../../core/moves/suggest-moves.ts';
import { millimetres } from '../../../core/units/length.ts';
import { ALONG_X, primaryOf, seededRandom } from '../path/made-primaries.ts';
import { faultsOf } from './check-move.ts';
import { disturb, FULL_SHELF } from './disturb.ts';
import { fittedHeader, lengthOf, shopPrimary } from './made-headers.ts';
import { piecesInShort } from './pieces-in-short.ts';

/** Minutes, as a shop might count them. */
const MINUTES: ShopPrices = { joint: 20, cut: 5, bend: 10, tubeMetre: 0, ordered: 0 };
const NOTHING: ShopPrices = { joint: 0, cut: 0, bend: 0, tubeMetre: 0, ordered: 0 };

const own = (pieces: string) => primaryOf(piecesInShort(pieces, { unit: 'mm' }), { id: 'own', port: ALONG_X });

function headerOf(pieces: string, fitted: string, wantedMm = 0): Header {
  const right = own(fitted);
  return fittedHeader(own(pieces), { targetMm: lengthOf(right) + wantedMm, fitted: right });
}

function movesFor(header: Header, options: MoveOptions): readonly Move[] {
  const outcome = suggestMoves(header, 'own', options);
  if (outcome.kind === 'none') return [];
  expect(outcome.moves.flatMap((move) => faultsOf(header, move, options))).toEqual([]);
  return outcome.moves;
}

/** By the definition, from what the move says of itself. */
function pricedByHand({ cost }: Move, prices: ShopPrices): number {
  return (
    cost.jointsMade * prices.joint +
    cost.newCuts * prices.cut +
    cost.bendsAdded * prices.bend +
    (cost.tubeAddedMm / 1000) * prices.tubeMetre +
    cost.stockLacking * prices.ordered
  );
}

/** Half a thousandth is the rounding of a price. */
const ROUNDING = 5e-4 + 1e-9;

describe("a shop's own prices", () => {
  const MISSING = headerOf('S80 B76/60/0 S90 S70 B76/45/-90 S100', 'S80 B76/60/0 S90 B60/75/70 S70 B76/45/-160 S100');

  it('let a bend in where that is less work than many joints, which the order never does', () => {
    const [byOrder] = movesFor(MISSING, { stock: FULL_SHELF });
    expect(byOrder?.cost.bendsAdded).toBe(0);
    expect(byOrder?.cost.jointsMade).toBeGreaterThan(2);
    expect(byOrder?.cost.price).toBeNull();
    const [byPrice] = movesFor(MISSING, { stock: FULL_SHELF, prices: MINUTES });
    expect(byPrice?.kind).toBe('bendIn');
    // Two joints, one cut, one bend.
    expect(byPrice?.cost.price).toBe(2 * 20 + 5 + 10);
  });

  it('keep to the order where the shop counts nothing', () => {
    const first = (options: MoveOptions) => movesFor(MISSING, options)[0]?.changes;
    expect(first({ stock: FULL_SHELF, prices: NOTHING, kinds: ['swaps'] })).toEqual(
      first({ stock: FULL_SHELF, kinds: ['swaps'] }),
    );
  });

  it('put what is to be ordered behind more work, where ordering is dear', () => {
    // 5 mm is too little for a ring, and the shelf has no straight of 90 mm.
    const header = headerOf(
      'S80 B76/90/0 S85 B76/60/90 S70 B76/45/-90 S100 B76/30/45 S90',
      'S80 B76/90/0 S90 B76/60/90 S70 B76/45/-90 S100 B76/30/45 S90',
    );
    const stock = FULL_SHELF.map((item) => (item.kind === 'straight' ? { ...item, length: millimetres(60) } : item));
    const lackingOf = (prices: ShopPrices | null) => movesFor(header, { stock, prices })[0]?.cost.stockLacking;
    expect(lackingOf(null)).toBe(1);
    expect(lackingOf({ ...MINUTES, ordered: 1 })).toBe(1);
    expect(lackingOf({ ...MINUTES, ordered: 5000 })).toBe(0);
  });

  it('rank all that is offered, and never miss what the order has (seed 31, 12 primaries)', () => {
    const random = seededRandom(31);
    const prices: ShopPrices = { joint: 12, cut: 30, bend: 4, tubeMetre: 90, ordered: 15 };
    let compared = 0;
    for (let run = 0; run < 12; run += 1) {
      const fitted = shopPrimary({ pieces: 7 + (run % 4), random });
      const { primary } = disturb(fitted, 1 + (run % 2), { random, kinds: ['length', 'clocking', 'angle'] });
      const header = fittedHeader(primary, { targetMm: lengthOf(fitted), fitted });
      const byOrder = movesFor(header, { stock: FULL_SHELF });
      const byPrice = movesFor(header, { stock: FULL_SHELF, prices });
      const said = byPrice.map(({ cost }) => cost.price ?? Number.NaN);
      expect(said).toEqual([...said].sort((a, b) => a - b));
      for (const move of byPrice) {
        expect(Math.abs((move.cost.price ?? Number.NaN) - pricedByHand(move, prices))).toBeLessThan(ROUNDING);
      }
      if (byOrder.length === 0) continue;
      const leastOfOrder = Math.min(...byOrder.map((move) => pricedByHand(move, prices)));
      expect(said[0], `run ${run}`).toBeLessThanOrEqual(leastOfOrder * 1.005 + ROUNDING);
      compared += 1;
    }
    expect(compared).toBeGreaterThan(9);
  });

  it('are summed up for the whole header', () => {
    const header = headerOf('S100 B60/180/0 S100', 'S100 B60/180/0 S100', 20);
    const outcome = suggestHeaderMoves(header, { prices: MINUTES });
    if (outcome.kind !== 'found') throw new Error(outcome.kind);
    // The first leg replaced opens the port and its bend, the last one its bend alone: three joints, two cuts.
    expect(outcome.asItIs.price).toBe(3 * 20 + 2 * 5);
    const unpriced = suggestHeaderMoves(header);
    expect(unpriced.kind === 'found' ? unpriced.asItIs.price : 0).toBeNull();
  });
});
