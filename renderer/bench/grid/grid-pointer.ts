/**
 * What a pointer does on the grid. A press selects a cell, Shift and a press selects up to it, Ctrl and a press adds its row;
 * drawing over rows selects them, and dragging one by its number moves it or all that are selected. A finger scrolls, except
 * on the number, and held still opens the menu that the other mouse button opens.
 */

import type { MouseEvent, PointerEvent } from 'react';
import { cellOf, isSameCell } from './grid-cell.ts';
import type { Cell } from './grid-keys.ts';
import { act, edit, type GridPress, type GridReach, go } from './grid-reach.ts';
import { COLUMNS } from './piece-columns.ts';
import { extendedTo, selectedRows, withToggled } from './row-selection.ts';

/** As long as touch systems wait before they take a touch for a long one. */
const HOLD_MS = 500;
/** A finger that moves less than this is still held on its place. */
const STILL_PX = 10;

export function pointerEvents(reach: GridReach) {
  return {
    onPointerDown: (event: PointerEvent<HTMLElement>) => pointerDown(reach, event),
    onPointerMove: (event: PointerEvent<HTMLElement>) => pointerMove(reach, event),
    onPointerUp: () => pointerUp(reach),
    onPointerCancel: () => endPress(reach),
    onClick: (event: MouseEvent) => click(reach, event),
    onContextMenu: (event: MouseEvent) => contextMenu(reach, event),
  };
}

function isSelected({ selection, primary }: GridReach, row: number): boolean {
  return selectedRows(selection, primary.pieces).has(row);
}

function pointerDown(reach: GridReach, event: PointerEvent<HTMLElement>): void {
  endPress(reach);
  const at = cellOf(event.target);
  if (at === null || event.target instanceof HTMLInputElement) {
    reach.press.current = null;
    return;
  }
  const isPlain = !(event.shiftKey || event.ctrlKey || event.metaKey);
  const kind = pressKind(reach, event, { at, isPlain });
  const { clientX: x, clientY: y } = event;
  const hold = event.pointerType === 'touch' ? setTimeout(() => openByHold(reach), HOLD_MS) : undefined;
  const inHand = reach.selection.cell;
  reach.press.current = { at, inHand, kind, x, y, hold, isDown: true, isSpent: !isPlain, dropBefore: null };
  if (event.button !== 0 || event.pointerType === 'touch') return;
  if (event.shiftKey) select(reach, extendedTo(reach.selection, at));
  else if (!isPlain) select(reach, withToggled(reach.selection, at, reach.primary.pieces));
  else if (kind !== 'carry' || !isSelected(reach, at.row)) go(reach, at);
}

function pressKind(
  { isFrozen }: GridReach,
  { button, pointerType }: PointerEvent,
  { at, isPlain }: { readonly at: Cell; readonly isPlain: boolean },
): GridPress['kind'] {
  if (button !== 0 || !isPlain) return 'other';
  if (COLUMNS[at.column] === 'number' && !isFrozen) return 'carry';
  return pointerType === 'touch' ? 'finger' : 'draw';
}

function select(reach: GridReach, selection: GridReach['selection']): void {
  reach.wantsFocus.current = true;
  reach.onSelect(selection);
}

function pointerMove(reach: GridReach, event: PointerEvent<HTMLElement>): void {
  const press = reach.press.current;
  if (press?.isDown !== true) return;
  if (Math.hypot(event.clientX - press.x, event.clientY - press.y) > STILL_PX) clearTimeout(press.hold);
  if (press.kind !== 'draw' && press.kind !== 'carry') return;
  scrollToPointer(event);
  const over = rowAt(event.currentTarget, event.clientY);
  if (over === null || (!press.isSpent && over.row === press.at.row)) return;
  if (!press.isSpent) {
    press.isSpent = true;
    event.currentTarget.setPointerCapture(event.pointerId);
    // A finger drags what it presses; a mouse has selected it already.
    if (press.kind === 'carry' && !isSelected(reach, press.at.row)) go(reach, press.at);
  }
  if (press.kind === 'draw') {
    select(reach, { cell: { row: over.row, column: press.at.column }, anchorRow: press.at.row, pickedIds: [] });
    return;
  }
  press.dropBefore = over.isLowerHalf ? over.row + 1 : over.row;
  reach.onDropPlace(press.dropBefore);
}

/** The row at a height of the window, by its own box: what stands between rows, such as a reason, belongs to the row above. */
function rowAt(grid: HTMLElement, y: number): { readonly row: number; readonly isLowerHalf: boolean } | null {
  const rows = [...grid.querySelectorAll('tbody tr[aria-rowindex]')];
  const row = rows.findLastIndex((candidate) => candidate.getBoundingClientRect().top <= y);
  if (rows.length === 0) return null;
  const box = rows[Math.max(0, row)]?.getBoundingClientRect();
  return { row: Math.max(0, row), isLowerHalf: box !== undefined && y > box.top + box.height / 2 };
}

/** Past an edge of what frames the grid, the rows beyond it come into sight. */
function scrollToPointer({ currentTarget, clientY }: PointerEvent<HTMLElement>): void {
  const frame = currentTarget.parentElement;
  const box = frame?.getBoundingClientRect();
  if (frame === null || box === undefined) return;
  const past = clientY < box.top ? clientY - box.top : Math.max(0, clientY - box.bottom);
  if (past !== 0) frame.scrollBy(0, past);
}

function pointerUp(reach: GridReach): void {
  const press = reach.press.current;
  if (press === null) return;
  const { dropBefore } = press;
  endPress(reach);
  if (dropBefore !== null) act(reach, { kind: 'moveBefore', row: dropBefore });
}

function endPress(reach: GridReach): void {
  const press = reach.press.current;
  if (press === null) return;
  clearTimeout(press.hold);
  press.isDown = false;
  if (press.dropBefore === null) return;
  press.dropBefore = null;
  reach.onDropPlace(null);
}

function click(reach: GridReach, event: MouseEvent): void {
  const press = reach.press.current;
  reach.press.current = null;
  const at = cellOf(event.target);
  if (at === null || event.target instanceof HTMLInputElement || press?.isSpent === true) return;
  // A second click on the cell in hand edits it, so that neither a double click nor a key is needed.
  if (isSameCell(at, press === null ? reach.selection.cell : press.inHand)) edit(reach, at, null);
  else go(reach, at);
}

function contextMenu(reach: GridReach, event: MouseEvent): void {
  const at = cellOf(event.target);
  // A field has the menu of its own, to paste from.
  if (at === null || event.target instanceof HTMLInputElement || reach.isFrozen) return;
  event.preventDefault();
  const { nativeEvent } = event;
  // The menu key has no place of its own.
  const isPointed = nativeEvent instanceof globalThis.PointerEvent && nativeEvent.pointerType !== '';
  openMenu(reach, at, isPointed ? { x: event.clientX, y: event.clientY } : null);
}

function openByHold(reach: GridReach): void {
  const press = reach.press.current;
  if (press?.isDown !== true || press.isSpent || reach.isFrozen) return;
  openMenu(reach, press.at, { x: press.x, y: press.y });
}

function openMenu(reach: GridReach, at: Cell, point: { readonly x: number; readonly y: number } | null): void {
  const press = reach.press.current;
  if (press !== null) {
    clearTimeout(press.hold);
    press.isSpent = true;
    press.isDown = false;
  }
  if (isSelected(reach, at.row)) select(reach, { ...reach.selection, cell: reach.selection.cell ?? at });
  else go(reach, at);
  reach.onMenu({ kind: 'piece', at, point });
}
