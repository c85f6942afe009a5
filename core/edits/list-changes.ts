/** Changes to the lists of a header, each checked against the list that it is made on. */

import type { HeaderProblem, ProblemPath } from '../header/header-problem.ts';
import { failure, type Result, success } from '../result.ts';

interface Named {
  readonly id: string;
}

/** Which list is meant, and how many entries it takes. */
export interface ListPlace {
  readonly path: ProblemPath;
  readonly what: string;
  readonly limit: number;
}

/** The list with `item` put in so that it stands at place `at`. */
export function withItem<Item extends Named>(
  list: readonly Item[],
  change: { readonly item: Item; readonly at: number },
  place: ListPlace,
): Result<readonly Item[], HeaderProblem> {
  if (list.length >= place.limit) return failure({ kind: 'tooMany', path: place.path, limit: place.limit });
  if (change.at > list.length) {
    return failure({ kind: 'placeOutOfList', path: place.path, at: change.at, length: list.length });
  }
  return success(list.toSpliced(change.at, 0, change.item));
}

/** Where `id` stands in the list. */
export function placeOf(list: readonly Named[], id: string, place: ListPlace): Result<number, HeaderProblem> {
  const index = list.findIndex((item) => item.id === id);
  return index >= 0 ? success(index) : failure({ kind: 'unknownId', path: place.path, id, what: place.what });
}

/** The list with the entry at `from` taken out and put in again so that it stands at `to`. */
export function withMoved<Item>(
  list: readonly Item[],
  change: { readonly from: number; readonly to: number },
  place: ListPlace,
): Result<readonly Item[], HeaderProblem> {
  const rest = list.toSpliced(change.from, 1);
  if (change.to > rest.length) {
    return failure({ kind: 'placeOutOfList', path: place.path, at: change.to, length: rest.length });
  }
  return success(rest.toSpliced(change.to, 0, ...list.slice(change.from, change.from + 1)));
}
