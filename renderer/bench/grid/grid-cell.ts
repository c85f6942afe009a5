/** Cells of the piece grid as elements of the page. */

import type { Cell } from './grid-keys.ts';

/** The cell that an event happened in; null outside all cells. */
export function cellOf(target: EventTarget | null): Cell | null {
  const element = target instanceof Element ? target.closest<HTMLElement>('[data-row]') : null;
  if (element === null) return null;
  return { row: Number(element.dataset['row']), column: Number(element.dataset['column']) };
}

export function focusCell(grid: HTMLTableElement | null, cell: Cell): void {
  grid?.querySelector<HTMLElement>(`[data-row="${cell.row}"][data-column="${cell.column}"]`)?.focus();
}

export function isSameCell(a: Cell | null, b: Cell | null): boolean {
  return a?.row === b?.row && a?.column === b?.column;
}

/** Whether a row is among those selected: from the cell's to the anchor's, whichever comes first. */
export function isWithin(row: number, cell: Cell | null, anchorRow: number | null): boolean {
  if (cell === null) return false;
  const other = anchorRow ?? cell.row;
  return row >= Math.min(cell.row, other) && row <= Math.max(cell.row, other);
}
