/** What the page's events on the grid do: keys, clicks, focus and the clipboard. */

import type { ClipboardEvent, FocusEvent, FormEvent, KeyboardEvent, MouseEvent, RefObject } from 'react';
import type { Primary } from '../../../core/index.ts';
import type { HeaderSession } from '../../session/header-session.ts';
import { cellOf, isSameCell } from './grid-cell.ts';
import { actOnCell, type Cell, cellAfterCommit, type GridAct, gridSize, type KeyPress } from './grid-keys.ts';
import { COLUMNS } from './piece-columns.ts';
import { type CellEdits, cellFieldName } from './use-cell-edits.ts';

/** What the grid asks the bench to do with the piece in hand; also what the buttons beside it do. */
export type PieceAct = Exclude<GridAct, { kind: 'go' | 'extend' | 'leave' | 'edit' | 'clear' }>;

export interface GridActs {
  readonly session: HeaderSession;
  readonly primary: Primary;
  readonly cell: Cell | null;
  /** Row at the other end of the rows selected; null for one row. */
  readonly anchorRow: number | null;
  /** A finished header can be looked at and copied from. */
  readonly isFrozen: boolean;
  readonly onCell: (cell: Cell, anchorRow: number | null) => void;
  readonly onAct: (act: PieceAct) => void;
  /** On to the entry line. */
  readonly onLeave: () => void;
  readonly onPaste: (text: string) => void;
  /** The rows selected as tab-separated text; null when there are none. */
  readonly copyText: () => string | null;
}

export interface GridReach extends GridActs {
  readonly cellEdits: CellEdits;
  /** Set, the cell in hand is focused after the next drawing. */
  readonly wantsFocus: RefObject<boolean>;
  /** The cell in hand when the pointer went down. */
  readonly cellAtPress: RefObject<Cell | null>;
}

/** Handlers for the grid's table element. */
export function gridEvents(reach: GridReach) {
  return {
    onKeyDown: (event: KeyboardEvent) => keyDown(reach, event),
    onPointerDown: () => {
      reach.cellAtPress.current = reach.cell;
    },
    onClick: (event: MouseEvent) => click(reach, event),
    onFocus: (event: FocusEvent) => {
      const at = cellOf(event.target);
      if (at !== null && !isSameCell(at, reach.cell)) reach.onCell(at, null);
    },
    onBlur: ({ target }: FocusEvent) => {
      if (target instanceof HTMLInputElement && target.isConnected) commitField(reach, target);
    },
    onInput: (event: FormEvent) => {
      const { dataset, value } = event.target as HTMLInputElement;
      reach.session.typed(cellFieldName(dataset['piece'] ?? '', dataset['edited'] ?? ''), value);
    },
    onCopy: (event: ClipboardEvent) => copy(reach, event),
    onCut: (event: ClipboardEvent) => {
      if (copy(reach, event)) perform(reach, { kind: 'remove' }, reach.cell ?? { row: 0, column: 0 });
    },
    onPaste: (event: ClipboardEvent) => {
      if (event.target instanceof HTMLInputElement || reach.isFrozen) return;
      event.preventDefault();
      reach.onPaste(event.clipboardData.getData('text/plain'));
    },
  };
}

function pressOf(event: KeyboardEvent): KeyPress {
  return { key: event.key, ctrl: event.ctrlKey || event.metaKey, alt: event.altKey, shift: event.shiftKey };
}

function commitField({ cellEdits }: GridReach, field: HTMLInputElement): boolean {
  return cellEdits.commit(field.dataset['piece'] ?? '', field.value);
}

function go(reach: GridReach, to: Cell | 'leave'): void {
  if (to === 'leave') {
    reach.onLeave();
    return;
  }
  reach.wantsFocus.current = true;
  reach.onCell(to, null);
}

function keyDown(reach: GridReach, event: KeyboardEvent): void {
  if (event.target instanceof HTMLInputElement) {
    keyInField(reach, event, event.target);
    return;
  }
  const at = cellOf(event.target);
  const act = at === null ? null : actOnCell(pressOf(event), at, gridSize(reach.primary.pieces.length));
  if (at === null || act === null) return;
  // Copy and cut are done by the clipboard events, which carry the clipboard with them.
  if (act.kind === 'copy' || act.kind === 'cut') return;
  event.preventDefault();
  perform(reach, act, at);
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
    if (commitField(reach, field)) go(reach, cellAfterCommit(press, at, gridSize(reach.primary.pieces.length)));
  }
  // Undo within the field is the field's own while it is edited.
  if (press.ctrl && press.key.toLowerCase() === 'z') event.stopPropagation();
}

function click(reach: GridReach, event: MouseEvent): void {
  const at = cellOf(event.target);
  if (at === null || event.target instanceof HTMLInputElement) return;
  // A second click on the cell in hand edits it, so that neither a double click nor a key is needed.
  if (isSameCell(at, reach.cellAtPress.current)) edit(reach, at, null);
  else go(reach, at);
}

function edit(reach: GridReach, at: Cell, text: string | null): void {
  const piece = reach.primary.pieces[at.row];
  const column = COLUMNS[at.column];
  if (piece === undefined || column === undefined || reach.isFrozen) return;
  if (column === 'state') reach.onAct({ kind: 'cycleState' });
  else reach.cellEdits.begin(piece.id, column, text);
}

function extend(reach: GridReach, act: Extract<GridAct, { kind: 'extend' }>): void {
  // Ctrl+A begins at the first row, Shift and an arrow where the selection began.
  const isAll = act.from === 0 && act.to.row === reach.primary.pieces.length - 1;
  reach.wantsFocus.current = true;
  reach.onCell(act.to, isAll ? 0 : (reach.anchorRow ?? act.from));
}

function perform(reach: GridReach, act: GridAct, at: Cell): void {
  switch (act.kind) {
    case 'go':
      go(reach, act.to);
      return;
    case 'extend':
      extend(reach, act);
      return;
    case 'leave':
      reach.onLeave();
      return;
    case 'edit':
      edit(reach, at, act.text);
      return;
    case 'clear':
      edit(reach, at, '');
      return;
    default:
      if (reach.isFrozen) return;
      reach.wantsFocus.current = act.kind !== 'insert';
      reach.onAct(act);
  }
}

/** True when something was put on the clipboard. */
function copy({ copyText }: GridReach, event: ClipboardEvent): boolean {
  const text = event.target instanceof HTMLInputElement ? null : copyText();
  if (text === null) return false;
  event.preventDefault();
  event.clipboardData.setData('text/plain', text);
  return true;
}
