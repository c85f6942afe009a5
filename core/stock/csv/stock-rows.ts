/** Writes a stock list as the rows of a table that `readStockRows` reads back without loss. */

import { formatTyped, formatTypedAngle } from '../../units/format-typed.ts';
import { isRemnant, type StockItem } from '../stock-item.ts';
import { STOCK_COLUMNS } from './stock-columns.ts';

/**
 * Column names first, then one row an item in the order given, lengths with their units as typed.
 * Ids are left out, and with them what a remnant was cut from: they mean nothing outside the shop's own database.
 */
export function stockRows(items: readonly StockItem[]): readonly (readonly string[])[] {
  return [STOCK_COLUMNS, ...items.map(rowOf)];
}

function rowOf(item: StockItem): readonly string[] {
  const tube = [item.kind, item.material, formatTyped(item.od), formatTyped(item.wall)];
  const shape =
    item.kind === 'bend'
      ? [formatTyped(item.clr), formatTypedAngle(item.angleDeg), ...item.legs.map((leg) => formatTyped(leg)), '']
      : ['', '', '', '', formatTyped(item.length)];
  const extras = [textOf(item.least), textOf(item.cost), isRemnant(item) ? 'yes' : ''];
  return [...tube, ...shape, String(item.count), item.note, ...extras];
}

function textOf(number: number | undefined): string {
  return number === undefined ? '' : formatTypedAngle(number);
}
