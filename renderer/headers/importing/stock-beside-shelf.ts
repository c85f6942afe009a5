/** A stock list from a file, held beside what is on the shelf: what is new, what changes its count, what is there already. */

import { compareWithShelf, type ListedStock } from '../../../core/index.ts';
import type { AskedOf, ResponseOf } from '../../../electron/bridge/contract.ts';
import { countOf } from '../../ui/words/spoken.ts';

type GivenStock = Extract<ResponseOf<'previewFile'>, { kind: 'stock' }>;
type Stored = ResponseOf<'listStock'>['stock'][number];

export interface StockBesideShelf extends Pick<GivenStock, 'kind' | 'refused' | 'commas'> {
  /** What the list changes comes first; otherwise in the order of the list. */
  readonly lines: readonly ListedStock[];
  /** What taking it in asks of the store. */
  readonly change: Pick<AskedOf<'addStockItems'>, 'items'> & { readonly changed: readonly Stored[] };
}

export function besideShelf({ kind, items, refused, commas }: GivenStock, shelf: readonly Stored[]): StockBesideShelf {
  const lines = compareWithShelf(
    shelf.map(({ item }) => item),
    items,
  );
  const revisions = new Map(shelf.map(({ item, revision }) => [item.id, revision]));
  const changed = lines.flatMap((line) =>
    line.kind === 'recount' ? [{ item: line.item, revision: revisions.get(line.item.id) ?? 0 }] : [],
  );
  const added = lines.flatMap((line) => (line.kind === 'new' ? [line.item] : []));
  const inOrder = [...lines.filter((line) => line.kind !== 'same'), ...lines.filter((line) => line.kind === 'same')];
  return { kind, refused, commas, lines: inOrder, change: { items: added, changed } };
}

/** The words on the button that takes the list in; null when it would change nothing. */
export function takeInWords({ change: { items, changed } }: StockBesideShelf): string | null {
  const added = `Add ${countOf(items.length, 'line')}`;
  if (items.length === 0 && changed.length === 0) return null;
  if (changed.length === 0) return `${added} to the shelf`;
  const counts = countOf(changed.length, 'count');
  return items.length === 0 ? `Change ${counts} on the shelf` : `${added}, change ${counts}`;
}

/** What was done, once it is: "2 lines added to the shelf, 1 count changed." */
export function takenInWords({ change: { items, changed } }: StockBesideShelf): string {
  const added = items.length === 0 ? [] : [`${countOf(items.length, 'line')} added to the shelf`];
  const counts = changed.length === 0 ? [] : [`${countOf(changed.length, 'count')} changed`];
  return `${[...added, ...counts].join(', ')}.`;
}

/** What comes of one line: "new", "no change", "count 4 → 6". */
export function lineWords(line: ListedStock): string {
  if (line.kind === 'new') return 'new';
  return `already on the shelf, ${line.kind === 'same' ? 'no change' : `count ${line.before} → ${line.item.count}`}`;
}
