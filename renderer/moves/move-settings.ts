/** What the person allows a move to do, as typed in the options; the search gets it in its own terms. */

import { type Length, MOVE_KINDS, type MoveKind, mmOf, type StockItem } from '../../core/index.ts';
import { FIRST_PRICES, type MovePrices, shopPrices } from './move-prices.ts';
import type { AskedOptions, AskedProposeOptions } from './search/moves-question.ts';

export interface MoveSettings {
  /** Null: any number. */
  readonly mostJoints: number | null;
  /** Null: however near. */
  readonly clearanceKept: Length | null;
  readonly usesShelf: boolean;
  /** Moves that add bends are looked for as well. */
  readonly addsBends: boolean;
  /** How long a primary's search may take before it answers with the best so far. */
  readonly budgetMs: number;
}

/** The first is a time that nobody minds. */
export const BUDGETS_MS = [300, 1_000, 3_000, 10_000] as const;

export const FIRST_SETTINGS: MoveSettings = {
  mostJoints: null,
  clearanceKept: null,
  usesShelf: true,
  addsBends: true,
  budgetMs: BUDGETS_MS[0],
};

const ADDING_KINDS: readonly MoveKind[] = ['bendIn', 'bendPair', 'kick'];

/** An empty shelf has not been taken stock of, and is not considered. */
export function askedOptions(
  settings: MoveSettings,
  stock: readonly StockItem[] | null,
  movePrices: MovePrices = FIRST_PRICES,
): AskedOptions {
  const prices = shopPrices(movePrices);
  const { mostJoints, clearanceKept, usesShelf, addsBends } = settings;
  return {
    ...(prices === null ? {} : { prices }),
    ...(mostJoints === null ? {} : { maxJoints: mostJoints }),
    ...(clearanceKept === null ? {} : { clearanceKeptMm: mmOf(clearanceKept) }),
    ...(addsBends ? {} : { kinds: MOVE_KINDS.filter((kind) => !ADDING_KINDS.includes(kind)) }),
    ...(usesShelf && stock !== null && stock.length > 0 ? { stock } : {}),
  };
}

/** The same for whole primaries: the header's wanted gap is kept unless another clearance was asked for. */
export function proposeOptions(
  { clearanceKept, usesShelf }: MoveSettings,
  stock: readonly StockItem[] | null,
): AskedProposeOptions {
  return {
    ...(clearanceKept === null ? {} : { clearanceKeptMm: mmOf(clearanceKept) }),
    ...(usesShelf && stock !== null && stock.length > 0 ? { stock } : {}),
  };
}
