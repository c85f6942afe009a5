/** A stock list from a file, held beside what is on the shelf: what is new, what changes its count, what is there already. */

import { compareWithShelf, type ListedStock, type ShelfChange } from '../../../core/index.ts';
import type { ResponseOf } from '../../../electron/bridge/contract.ts';
import { countOf } from '../../ui/words/spoken.ts';

type GivenStock = Extract<ResponseOf<'previewFile'>, { kind: 'stock' }>;
type Stored = ResponseOf<'listStock'>['stock'][number];

export interface StockBesideShelf extends Pick<GivenStock, 'kind' | 'refused' | 'commas' | 'said'> {
  /** What the list changes comes first; otherwise in the order of the list. */
  readonly lines: readonly ListedStock[];
  /** What taking it in asks of the store. */
  readonly changes: readonly ShelfChange[];
}

export function besideShelf({ items, ...given }: GivenStock, shelf: readonly Stored[]): StockBesideShelf {
  const lines = compareWithShelf(
    shelf.map(({ item }) => item),
    items,
  );
  const revisions = new Map(shelf.map(({ item, revision }) => [item.id, revision]));
  const changes = lines.flatMap((line): ShelfChange[] => {
    if (line.kind === 'same') return [];
    if (line.kind === 'new') return [{ kind: 'add', item: line.item }];
    return [{ kind: 'set', item: line.item, revision: revisions.get(line.item.id) ?? 0 }];
  });
  const inOrder = [...lines.filter((line) => line.kind !== 'same'), ...lines.filter((line) => line.kind === 'same')];
  return { ...given, lines: inOrder, changes };
}

/** How many lines are new, and how many change what is on the shelf. */
function amounts({ changes }: StockBesideShelf): { readonly added: number; readonly changed: number } {
  const added = changes.filter(({ kind }) => kind === 'add').length;
  return { added, changed: changes.length - added };
}

/** The words on the button that takes the list in; null when it would change nothing. */
export function takeInWords(stock: StockBesideShelf): string | null {
  const { added, changed } = amounts(stock);
  if (added === 0 && changed === 0) return null;
  const lines = `Add ${countOf(added, 'line')}`;
  if (changed === 0) return `${lines} to the shelf`;
  const counts = countOf(changed, 'count');
  return added === 0 ? `Change ${counts} on the shelf` : `${lines}, change ${counts}`;
}

/** What was done, once it is: "2 lines added to the shelf, 1 count changed." */
export function takenInWords(stock: StockBesideShelf): string {
  const { added, changed } = amounts(stock);
  const lines = added === 0 ? [] : [`${countOf(added, 'line')} added to the shelf`];
  const counts = changed === 0 ? [] : [`${countOf(changed, 'count')} changed`];
  return `${[...lines, ...counts].join(', ')}.`;
}

/** What comes of one line: "new", "no change", "count 4 → 6". */
export function lineWords(line: ListedStock): string {
  if (line.kind === 'new') return 'new';
  if (line.kind === 'same') return 'already on the shelf, no change';
  const isCounted = line.before !== line.item.count;
  return `already on the shelf, ${isCounted ? `count ${line.before} → ${line.item.count}` : 'cost or least count changed'}`;
}
