/** What each key means in the piece grid, after the grid pattern of the W3C ARIA Authoring Practices Guide. */

import { COMMANDS, type CommandId } from '../../../electron/bridge/commands.ts';
import { matchesChord } from '../../commands/key-chord.ts';
import { COLUMNS } from './piece-columns.ts';

export interface Cell {
  /** Row counted from 0. */
  readonly row: number;
  /** Place in COLUMNS. */
  readonly column: number;
}

export interface GridSize {
  readonly rows: number;
  readonly columns: number;
}

export interface KeyPress {
  readonly key: string;
  readonly ctrl: boolean;
  readonly alt: boolean;
  readonly shift: boolean;
}

export type GridAct =
  | { readonly kind: 'go'; readonly to: Cell }
  /** Selects the rows from where the selection began to this cell's. */
  | { readonly kind: 'extend'; readonly from: number; readonly to: Cell }
  /** Past the last row or cell: on to the entry line. */
  | { readonly kind: 'leave' }
  /** `text` null: edit what is there; else typing has begun with it. */
  | { readonly kind: 'edit'; readonly text: string | null }
  | { readonly kind: 'clear' }
  | { readonly kind: 'insert' | 'remove' | 'duplicate' | 'cycleState' | 'toggleLock' | 'copy' | 'cut' }
  | { readonly kind: 'move'; readonly by: -1 | 1 };

const PAGE_ROWS = 10;

function clamped(cell: Cell, size: GridSize): Cell {
  return {
    row: Math.max(0, Math.min(size.rows - 1, cell.row)),
    column: Math.max(0, Math.min(size.columns - 1, cell.column)),
  };
}

/** The cell that a moving key goes to, not past the edges; null for any other key. */
export function cellAfter(press: KeyPress, at: Cell, size: GridSize): Cell | null {
  const to = (row: number, column: number) => clamped({ row, column }, size);
  switch (press.key) {
    case 'ArrowUp':
      return to(at.row - 1, at.column);
    case 'ArrowDown':
      return to(at.row + 1, at.column);
    case 'ArrowLeft':
      return to(at.row, at.column - 1);
    case 'ArrowRight':
      return to(at.row, at.column + 1);
    case 'PageUp':
      return to(at.row - PAGE_ROWS, at.column);
    case 'PageDown':
      return to(at.row + PAGE_ROWS, at.column);
    case 'Home':
      return press.ctrl ? to(0, 0) : to(at.row, 0);
    case 'End':
      return press.ctrl ? to(size.rows - 1, size.columns - 1) : to(at.row, size.columns - 1);
    default:
      return null;
  }
}

/** Meaning of a key on a cell that is not being edited; null: not the grid's business. */
export function actOnCell(press: KeyPress, at: Cell, size: GridSize): GridAct | null {
  const act = commandAct(press);
  if (act !== null || press.alt) return act;
  if (press.ctrl) return actWithCtrl(press, at, size);
  const goal = cellAfter(press, at, size);
  if (goal !== null && press.shift) return { kind: 'extend', from: at.row, to: goal };
  if (goal !== null)
    return press.key === 'ArrowDown' && at.row === size.rows - 1 ? { kind: 'leave' } : { kind: 'go', to: goal };
  switch (press.key) {
    case 'Enter':
    case 'F2':
      return { kind: 'edit', text: null };
    case ' ':
    case 's':
    case 'S':
      return { kind: 'cycleState' };
    case 'l':
    case 'L':
      return { kind: 'toggleLock' };
    case 'Delete':
    case 'Backspace':
      return { kind: 'clear' };
    default:
      return press.key.length === 1 ? { kind: 'edit', text: press.key } : null;
  }
}

/** Commands that the grid does itself, so that the cell in hand keeps the focus. */
const PIECE_COMMANDS: readonly (readonly [CommandId, GridAct])[] = [
  ['insertPiece', { kind: 'insert' }],
  ['deletePiece', { kind: 'remove' }],
  ['duplicatePiece', { kind: 'duplicate' }],
  ['movePieceUp', { kind: 'move', by: -1 }],
  ['movePieceDown', { kind: 'move', by: 1 }],
];

function commandAct({ key, ctrl, alt, shift }: KeyPress): GridAct | null {
  // Ctrl and Command are one modifier to the grid.
  const press = { key, ctrlKey: ctrl, metaKey: false, altKey: alt, shiftKey: shift };
  const isPressed = (id: CommandId) => COMMANDS[id].keys?.some((chord) => matchesChord(chord, press, false)) === true;
  return PIECE_COMMANDS.find(([id]) => isPressed(id))?.[1] ?? null;
}

function actWithCtrl(press: KeyPress, at: Cell, size: GridSize): GridAct | null {
  switch (press.key) {
    case 'Home':
    case 'End': {
      const to = cellAfter(press, at, size);
      return to === null ? null : { kind: 'go', to };
    }
    // The key that Apple's keyboards call delete.
    case 'Backspace':
      return { kind: 'remove' };
    case 'a':
    case 'A':
      return { kind: 'extend', from: 0, to: { row: size.rows - 1, column: at.column } };
    case 'c':
      return { kind: 'copy' };
    case 'x':
      return { kind: 'cut' };
    default:
      return null;
  }
}

/** Where to go once an edit was accepted: Enter down, Tab right, Shift the other way; past the end is the entry line. */
export function cellAfterCommit(press: KeyPress, at: Cell, size: GridSize): Cell | 'leave' {
  if (press.key === 'Enter') {
    const row = at.row + (press.shift ? -1 : 1);
    return row >= size.rows ? 'leave' : clamped({ row, column: at.column }, size);
  }
  const place = at.row * size.columns + at.column + (press.shift ? -1 : 1);
  if (place >= size.rows * size.columns) return 'leave';
  return place < 0 ? { row: 0, column: 0 } : { row: Math.floor(place / size.columns), column: place % size.columns };
}

export function gridSize(rows: number): GridSize {
  return { rows, columns: COLUMNS.length };
}
