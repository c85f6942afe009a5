/** Compares a stock list with the shelf, so that a list taken out, edited and brought in again is not put there twice. */

import { mmOf } from '../../units/length.ts';
import { comparable, isOfTube, isSameSize, SAME_ANGLE_DEG } from '../shelf-match.ts';
import { isRemnant, type StockItem } from '../stock-item.ts';

/** What becomes of one line of a list. */
export type ListedStock =
  /** Nothing like it is on the shelf. */
  | { readonly kind: 'new'; readonly item: StockItem }
  /** `item` is the one on the shelf, with count, cost and least count of the list; `before` is the count that it has now. */
  | { readonly kind: 'recount'; readonly item: StockItem; readonly before: number }
  /** It is on the shelf with this count. */
  | { readonly kind: 'same'; readonly item: StockItem };

/**
 * One entry for every line of the list, in its order.
 *
 * A line is that of an item when they are the same stock: kind, material (case and outer space apart), note (outer space
 * apart), whether it is a remnant, and OD, wall, CLR, legs and length within 0.01 mm, angle within 1e-9 degree. Count, cost and
 * least count are what the list sets; a line without cost or least count leaves those as they are. Each item of the shelf stands
 * for one line; where several are alike, a line takes the one that it leaves as it is first, else the first. Lines that the
 * list does not have stay as they are.
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
  const unchanged = list.map((line) => take(line, (item) => isLeftAs(item, line)));
  return list.map((line, index) => {
    const same = unchanged[index] ?? null;
    if (same !== null) return { kind: 'same', item: same };
    const other = take(line, () => true);
    if (other === null) return { kind: 'new', item: line };
    return { kind: 'recount', item: { ...other, ...setBy(line) }, before: other.count };
  });
}

/** What a line sets of the item that it stands for. */
function setBy({ count, cost, least }: StockItem): Pick<StockItem, 'count' | 'cost' | 'least'> {
  return { count, ...(cost === undefined ? {} : { cost }), ...(least === undefined ? {} : { least }) };
}

function isLeftAs(item: StockItem, line: StockItem): boolean {
  return (
    item.count === line.count && (line.cost ?? item.cost) === item.cost && (line.least ?? item.least) === item.least
  );
}

function groupOf(item: StockItem): string {
  return JSON.stringify([item.kind, comparable(item.material), item.note.trim(), isRemnant(item)]);
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
