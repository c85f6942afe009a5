/** Compares a stock list with the shelf, so that a list taken out, edited and brought in again is not put there twice. */

import { mmOf } from '../../units/length.ts';
import { comparable, isOfTube, isSameSize, SAME_ANGLE_DEG } from '../shelf-match.ts';
import type { StockItem } from '../stock-item.ts';

/** What becomes of one line of a list. */
export type ListedStock =
  /** Nothing like it is on the shelf. */
  | { readonly kind: 'new'; readonly item: StockItem }
  /** `item` is the one on the shelf, with the count of the list; `before` is the count that it has now. */
  | { readonly kind: 'recount'; readonly item: StockItem; readonly before: number }
  /** It is on the shelf with this count. */
  | { readonly kind: 'same'; readonly item: StockItem };

/**
 * One entry for every line of the list, in its order.
 *
 * A line is that of an item when all but the count agrees: kind, material (case and outer space apart), note (outer space
 * apart), and OD, wall, CLR, legs and length within 0.01 mm, angle within 1e-9 degree. Each item of the shelf stands for one
 * line; where several are alike, a line takes the one with its count first, else the first. Lines that the list does not have
 * stay as they are.
 *
 * Time goes with lines times items of one kind, material and note.
 */
export function compareWithShelf(shelf: readonly StockItem[], list: readonly StockItem[]): readonly ListedStock[] {
  const free = new Map<string, StockItem[]>();
  for (const item of shelf) {
    const alike = free.get(groupOf(item));
    if (alike === undefined) free.set(groupOf(item), [item]);
    else alike.push(item);
  }
  const take = (line: StockItem, isWanted: (item: StockItem) => boolean): StockItem | null => {
    const group = free.get(groupOf(line)) ?? [];
    const at = group.findIndex((item) => isSameStock(item, line) && isWanted(item));
    return at < 0 ? null : (group.splice(at, 1)[0] ?? null);
  };
  const unchanged = list.map((line) => take(line, ({ count }) => count === line.count));
  return list.map((line, index) => {
    const same = unchanged[index] ?? null;
    if (same !== null) return { kind: 'same', item: same };
    const other = take(line, () => true);
    if (other === null) return { kind: 'new', item: line };
    return { kind: 'recount', item: { ...other, count: line.count }, before: other.count };
  });
}

function groupOf({ kind, material, note }: StockItem): string {
  return JSON.stringify([kind, comparable(material), note.trim()]);
}

/** Whether two items of one group are of the same tube and shape. */
function isSameStock(a: StockItem, b: StockItem): boolean {
  if (!isOfTube(a, b)) return false;
  if (a.kind === 'straight') return b.kind === 'straight' && isSameSize(mmOf(a.length), mmOf(b.length));
  return (
    b.kind === 'bend' &&
    Math.abs(a.angleDeg - b.angleDeg) <= SAME_ANGLE_DEG &&
    isSameSize(mmOf(a.clr), mmOf(b.clr)) &&
    isSameSize(mmOf(a.legs[0]), mmOf(b.legs[0])) &&
    isSameSize(mmOf(a.legs[1]), mmOf(b.legs[1]))
  );
}
