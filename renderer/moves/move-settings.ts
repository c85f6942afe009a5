/** What the person allows a move to do, as typed in the options; the search gets it in its own terms. */

import { type Length, mmOf, type StockItem } from '../../core/index.ts';
import type { AskedOptions } from './search/moves-question.ts';

export interface MoveSettings {
  /** Null: any number. */
  readonly mostJoints: number | null;
  /** Null: however near. */
  readonly clearanceKept: Length | null;
  readonly usesShelf: boolean;
}

export const FIRST_SETTINGS: MoveSettings = { mostJoints: null, clearanceKept: null, usesShelf: true };

/** An empty shelf has not been taken stock of, and is not considered. */
export function askedOptions(settings: MoveSettings, stock: readonly StockItem[] | null): AskedOptions {
  const { mostJoints, clearanceKept, usesShelf } = settings;
  return {
    ...(mostJoints === null ? {} : { maxJoints: mostJoints }),
    ...(clearanceKept === null ? {} : { clearanceKeptMm: mmOf(clearanceKept) }),
    ...(usesShelf && stock !== null && stock.length > 0 ? { stock } : {}),
  };
}
