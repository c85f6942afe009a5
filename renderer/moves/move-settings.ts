/** What the person allows a move to do, as typed in the options; the search gets it in its own terms. */

import { type Length, MOVE_KINDS, mmOf, type StockItem } from '../../core/index.ts';
import type { AskedOptions } from './search/moves-question.ts';

export interface MoveSettings {
  /** Null: any number. */
  readonly mostJoints: number | null;
  /** Null: however near. */
  readonly clearanceKept: Length | null;
  readonly usesShelf: boolean;
  /** Moves that let in bends are looked for as well. */
  readonly addsBends: boolean;
}

export const FIRST_SETTINGS: MoveSettings = { mostJoints: null, clearanceKept: null, usesShelf: true, addsBends: true };

/** An empty shelf has not been taken stock of, and is not considered. */
export function askedOptions(settings: MoveSettings, stock: readonly StockItem[] | null): AskedOptions {
  const { mostJoints, clearanceKept, usesShelf, addsBends } = settings;
  return {
    ...(mostJoints === null ? {} : { maxJoints: mostJoints }),
    ...(clearanceKept === null ? {} : { clearanceKeptMm: mmOf(clearanceKept) }),
    ...(addsBends ? {} : { kinds: MOVE_KINDS.filter((kind) => kind !== 'kick' && kind !== 'bendPair') }),
    ...(usesShelf && stock !== null && stock.length > 0 ? { stock } : {}),
  };
}
