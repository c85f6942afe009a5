/** What the shop counts for its work: kept from one start to the next, and handed to the search in its own terms. */

import type { ShopPrices } from '../../core/index.ts';
import type { RequestOf } from '../../electron/bridge/contract.ts';

export type MovePrices = NonNullable<RequestOf<'savePreferences'>['preferences']['movePrices']>;

/** What moves are put in order by. */
export type RankBy = MovePrices['rankBy'];

export const RANKINGS: readonly { readonly id: RankBy; readonly name: string }[] = [
  { id: 'order', name: 'New bends, joints, cuts, tube' },
  { id: 'minutes', name: 'Minutes of the shop' },
  { id: 'money', name: 'Money of the shop' },
];

/** Nothing is counted yet, so that nothing is put before anything else but by the order. */
export const FIRST_PRICES: MovePrices = {
  rankBy: 'order',
  joint: 0,
  cut: 0,
  bend: 0,
  tube: 0,
  tubePer: 'm',
  ordered: 0,
};

const METRES_PER_FOOT = 0.3048;

/** The price of tube for the length that one says it for here. */
export function tubePriceFor({ tube, tubePer }: MovePrices, per: MovePrices['tubePer']): number {
  if (per === tubePer) return tube;
  return Number((per === 'ft' ? tube * METRES_PER_FOOT : tube / METRES_PER_FOOT).toPrecision(6));
}

/** As the search takes them; null where the order decides. */
export function shopPrices(prices: MovePrices): ShopPrices | null {
  if (prices.rankBy === 'order') return null;
  const { joint, cut, bend, ordered } = prices;
  return { joint, cut, bend, ordered, tubeMetre: tubePriceFor(prices, 'm') };
}

/** `75 min`, or `38.50` of whatever money the shop counts in. */
export function priceText(price: number, rankBy: RankBy): string {
  return rankBy === 'money' ? price.toFixed(2) : `${Math.round(price * 10) / 10} min`;
}

const MOST = 1e6;

/** A price as it is typed: a plain number of zero or more; null when it is none. */
export function readPrice(text: string): number | null {
  const typed = text.trim();
  if (!/^(?:\d+\.?\d*|\.\d+)$/.test(typed)) return null;
  const price = Number(typed);
  return price <= MOST ? price : null;
}
