/** Keeps the focus of the grid where its cell in hand is, and pieces just entered in sight. */

import { type RefObject, useLayoutEffect, useRef } from 'react';
import type { Primary } from '../../../core/index.ts';
import { cellOf, focusCell, isSameCell } from './grid-cell.ts';
import type { Cell } from './grid-keys.ts';

interface Reach {
  readonly primary: Primary;
  readonly cell: Cell | null;
  readonly insertAfterId: string | null;
  readonly gridRef: RefObject<HTMLTableElement | null>;
}

/** The ref says that the cell in hand is to be focused after the next drawing. */
export function useGridFocus({ primary, cell, insertAfterId, gridRef }: Reach): RefObject<boolean> {
  const wantsFocus = useRef(false);
  const rowsBefore = useRef(0);
  useLayoutEffect(() => {
    if (cell === null) return;
    const active = document.activeElement;
    const isOnCell = gridRef.current?.contains(active) === true && !(active instanceof HTMLInputElement);
    // A row that moved takes the focus along with it; the cell in hand is where the keys must go.
    const hasStrayed = isOnCell && !isSameCell(cellOf(active), cell);
    if (!wantsFocus.current && !hasStrayed) return;
    wantsFocus.current = false;
    focusCell(gridRef.current, cell);
  });
  useLayoutEffect(() => {
    const rows = primary.pieces.length;
    if (rows > rowsBefore.current && gridRef.current?.contains(document.activeElement) !== true) {
      const at = primary.pieces.findIndex((piece) => piece.id === insertAfterId);
      const row = at === -1 ? rows - 1 : at;
      gridRef.current?.querySelector(`[data-row="${row}"]`)?.scrollIntoView({ block: 'nearest' });
    }
    rowsBefore.current = rows;
  });
  return wantsFocus;
}
