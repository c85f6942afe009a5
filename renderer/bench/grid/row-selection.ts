/** Which rows of the grid are selected: those from the cell in hand to the anchor, and those added to them one by one. */

import type { Piece } from '../../../core/index.ts';
import type { Cell } from './grid-keys.ts';

export interface RowSelection {
  /** The cell in hand, always in a selected row; null: nothing is selected. */
  readonly cell: Cell | null;
  /** Row at the other end of the rows selected with Shift or by drawing over them; null: only the row of the cell. */
  readonly anchorRow: number | null;
  /** Ids of pieces selected besides. */
  readonly pickedIds: readonly string[];
}

/** Rows counted from 0. */
export function selectedRows(
  { cell, anchorRow, pickedIds }: RowSelection,
  pieces: readonly Pick<Piece, 'id'>[],
): ReadonlySet<number> {
  if (cell === null) return new Set();
  const other = anchorRow ?? cell.row;
  const [first, last] = [Math.min(cell.row, other), Math.max(cell.row, other)];
  const rows = pieces.flatMap(({ id }, row) => ((row >= first && row <= last) || pickedIds.includes(id) ? [row] : []));
  return new Set(rows);
}

export function onlyCell(cell: Cell): RowSelection {
  return { cell, anchorRow: null, pickedIds: [] };
}

/** From where the selection began to this cell's row. */
export function extendedTo({ cell, anchorRow }: RowSelection, to: Cell): RowSelection {
  return { cell: to, anchorRow: anchorRow ?? cell?.row ?? to.row, pickedIds: [] };
}

/** With the cell's row added, or taken out again where others are left. */
export function withToggled(selection: RowSelection, at: Cell, pieces: readonly Pick<Piece, 'id'>[]): RowSelection {
  const rows = selectedRows(selection, pieces);
  const idsOf = (kept: readonly number[]) => kept.flatMap((row) => pieces[row]?.id ?? []);
  if (!rows.has(at.row)) return { cell: at, anchorRow: null, pickedIds: idsOf([...rows]) };
  const left = [...rows].filter((row) => row !== at.row);
  const last = left.at(-1);
  if (last === undefined) return selection;
  return { cell: { row: last, column: at.column }, anchorRow: null, pickedIds: idsOf(left) };
}
