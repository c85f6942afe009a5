/** Cells of the piece grid as elements of the page. */

import type { Cell } from './grid-keys.ts';

/** The cell that an event happened in; null outside all cells. */
export function cellOf(target: EventTarget | null): Cell | null {
  const element = target instanceof Element ? target.closest<HTMLElement>('[data-row]') : null;
  if (element === null) return null;
  return { row: Number(element.dataset['row']), column: Number(element.dataset['column']) };
}

/** The element of a cell; null where the grid has no such row. */
export function cellElement(grid: HTMLTableElement | null, cell: Cell): HTMLElement | null {
  return grid?.querySelector<HTMLElement>(`[data-row="${cell.row}"][data-column="${cell.column}"]`) ?? null;
}

export function focusCell(grid: HTMLTableElement | null, cell: Cell): void {
  cellElement(grid, cell)?.focus();
}

export function isSameCell(a: Cell | null, b: Cell | null): boolean {
  return a?.row === b?.row && a?.column === b?.column;
}
