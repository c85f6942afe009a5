/** What the page's events on the grid do: keys, focus and the clipboard. Pointers stand in a file of their own. */

import type { ClipboardEvent, FocusEvent, FormEvent, KeyboardEvent } from 'react';
import { cellOf, isSameCell } from './grid-cell.ts';
import { actOnCell, type Cell, cellAfterCommit, type GridAct, gridSize, type KeyPress } from './grid-keys.ts';
import { pointerEvents } from './grid-pointer.ts';
import { act, beginNote, edit, type GridReach, go } from './grid-reach.ts';
import { COLUMNS } from './piece-columns.ts';
import { extendedTo, onlyCell, selectedRows } from './row-selection.ts';
import { cellFieldName } from './use-cell-edits.ts';

/** Handlers for the grid's table element. */
export function gridEvents(reach: GridReach) {
  return {
    ...pointerEvents(reach),
    onKeyDown: (event: KeyboardEvent) => keyDown(reach, event),
    onFocus: (event: FocusEvent) => {
      const at = cellOf(event.target);
      // What a pointer selects is said by the pointer.
      if (at === null || reach.press.current?.isDown === true) return;
      if (!isSameCell(at, reach.selection.cell)) reach.onSelect(onlyCell(at));
    },
    onBlur: ({ target }: FocusEvent) => {
      if (target instanceof HTMLInputElement && target.isConnected) commitField(reach, target);
    },
    onInput: (event: FormEvent) => {
      const { dataset, value } = event.target as HTMLInputElement;
      reach.session.typed(cellFieldName(dataset['piece'] ?? '', dataset['edited'] ?? ''), value);
    },
    onCopy: (event: ClipboardEvent) => copy(reach, event, false),
    onCut: (event: ClipboardEvent) => {
      if (copy(reach, event, true)) act(reach, { kind: 'remove' });
    },
    onPaste: (event: ClipboardEvent) => paste(reach, event),
  };
}

function pressOf(event: KeyboardEvent): KeyPress {
  return { key: event.key, ctrl: event.ctrlKey || event.metaKey, alt: event.altKey, shift: event.shiftKey };
}

function commitField({ cellEdits }: GridReach, field: HTMLInputElement): boolean {
  return cellEdits.commit(field.dataset['piece'] ?? '', field.value);
}

function keyDown(reach: GridReach, event: KeyboardEvent): void {
  if (event.target instanceof HTMLInputElement) {
    keyInField(reach, event, event.target);
    return;
  }
  const at = cellOf(event.target);
  const gridAct = at === null ? null : actOnCell(pressOf(event), at, gridSize(reach.primary.pieces.length));
  if (at === null || gridAct === null) return;
  // Copy and cut are done by the clipboard events, which carry the clipboard with them.
  if (isForClipboard(gridAct)) return;
  event.preventDefault();
  perform(reach, gridAct, at);
}

type ForClipboard = Extract<GridAct, { kind: 'copy' | 'cut' }>;

function isForClipboard(gridAct: GridAct): gridAct is ForClipboard {
  return gridAct.kind === 'copy' || gridAct.kind === 'cut';
}

function keyInField(reach: GridReach, event: KeyboardEvent, field: HTMLInputElement): void {
  const press = pressOf(event);
  const at = cellOf(field);
  if (at === null) return;
  if (press.key === 'Escape') {
    event.preventDefault();
    reach.cellEdits.restore(field.dataset['piece'] ?? '');
    go(reach, at);
  } else if (press.key === 'Enter' || press.key === 'Tab') {
    event.preventDefault();
    if (!commitField(reach, field)) return;
    const to = cellAfterCommit(press, at, gridSize(reach.primary.pieces.length));
    if (to === 'leave') reach.onLeave();
    else go(reach, to);
  }
  // Undo within the field is the field's own while it is edited.
  if (press.ctrl && press.key.toLowerCase() === 'z') event.stopPropagation();
}

function perform(reach: GridReach, gridAct: Exclude<GridAct, ForClipboard>, at: Cell): void {
  const { primary, selection } = reach;
  switch (gridAct.kind) {
    case 'go':
      go(reach, gridAct.to);
      return;
    case 'extend':
      reach.wantsFocus.current = true;
      reach.onSelect(extendedTo(selection, gridAct.to));
      return;
    case 'selectAll':
      reach.wantsFocus.current = true;
      reach.onSelect({ cell: { row: primary.pieces.length - 1, column: at.column }, anchorRow: 0, pickedIds: [] });
      return;
    case 'leave':
      reach.onLeave();
      return;
    case 'edit':
      edit(reach, at, gridAct.text);
      return;
    case 'clear':
      if (selectedRows(selection, primary.pieces).size > 1) act(reach, { kind: 'remove' });
      else edit(reach, at, '');
      return;
    case 'note':
      beginNote(reach, at);
      return;
    case 'stateMenu':
      if (!reach.isFrozen) reach.onMenu({ kind: 'state', at, point: null });
      return;
    default:
      act(reach, gridAct);
  }
}

/** True when something was put on the clipboard. */
function copy({ copyText, isFrozen }: GridReach, event: ClipboardEvent, isCut: boolean): boolean {
  const text = event.target instanceof HTMLInputElement ? null : copyText(isCut && !isFrozen);
  if (text === null) return false;
  event.preventDefault();
  event.clipboardData.setData('text/plain', text);
  return true;
}

/** One value goes into the cell in hand, as in any spreadsheet; rows and lines are pieces. */
function paste(reach: GridReach, event: ClipboardEvent): void {
  if (event.target instanceof HTMLInputElement || reach.isFrozen) return;
  event.preventDefault();
  const text = event.clipboardData.getData('text/plain').trim();
  const at = cellOf(event.target);
  const piece = at === null ? undefined : reach.primary.pieces[at.row];
  const column = at === null ? undefined : COLUMNS[at.column];
  const isOneValue = text !== '' && !/[\t\n\r;]/.test(text);
  if (isOneValue && piece !== undefined && column !== undefined && column !== 'number') {
    reach.cellEdits.set(piece.id, column, text);
  } else reach.onPaste(text);
}
