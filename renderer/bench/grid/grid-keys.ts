/** What each key means in the piece grid, after the grid pattern of the W3C ARIA Authoring Practices Guide. */

import type { PieceState } from '../../../core/index.ts';
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

/** What the grid asks the bench to do with the rows selected; also what menus and the buttons below it do. */
export type PieceAct =
  | { readonly kind: 'insert' | 'remove' | 'duplicate' | 'toggleLock' }
  /** One place towards the port (-1) or the collector (1). */
  | { readonly kind: 'shift'; readonly by: -1 | 1 }
  /** Before the piece now in this row; the count of rows is past the last. */
  | { readonly kind: 'moveBefore'; readonly row: number }
  | { readonly kind: 'setState'; readonly state: PieceState };

export type GridAct =
  | PieceAct
  | { readonly kind: 'go'; readonly to: Cell }
  /** Selects the rows from where the selection began to this cell's. */
  | { readonly kind: 'extend'; readonly to: Cell }
  | { readonly kind: 'selectAll' }
  /** Past the last row or cell: on to the entry line. */
  | { readonly kind: 'leave' }
  /** `text` null: edit what is there; else typing has begun with it. */
  | { readonly kind: 'edit'; readonly text: string | null }
  | { readonly kind: 'clear' | 'note' | 'stateMenu' }
  | { readonly kind: 'copy' | 'cut' };

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
  if (goal !== null && press.shift) return { kind: 'extend', to: goal };
  if (goal !== null)
    return press.key === 'ArrowDown' && at.row === size.rows - 1 ? { kind: 'leave' } : { kind: 'go', to: goal };
  switch (press.key) {
    case 'Enter':
    case 'F2':
      return { kind: 'edit', text: null };
    case ' ':
      return { kind: 'stateMenu' };
    case 'Delete':
    case 'Backspace':
      return { kind: 'clear' };
    default:
      return press.key.length === 1 ? actOnLetter(press.key, at) : null;
  }
}

/** First letters of the states, for the state column alone: elsewhere p begins a pie cut. */
const STATE_LETTERS: ReadonlyMap<string, PieceState> = new Map([
  ['p', 'planned'],
  ['c', 'cut'],
  ['t', 'tacked'],
  ['w', 'welded'],
]);

function actOnLetter(key: string, at: Cell): GridAct | null {
  const letter = key.toLowerCase();
  if (letter === 'l') return { kind: 'toggleLock' };
  if (letter === 'n') return { kind: 'note' };
  if (COLUMNS[at.column] !== 'state') return { kind: 'edit', text: key };
  const state = STATE_LETTERS.get(letter);
  return state === undefined ? null : { kind: 'setState', state };
}

/** Commands that the grid does itself, so that the cell in hand keeps the focus. */
const PIECE_COMMANDS: readonly (readonly [CommandId, GridAct])[] = [
  ['insertPiece', { kind: 'insert' }],
  ['deletePiece', { kind: 'remove' }],
  ['duplicatePiece', { kind: 'duplicate' }],
  ['movePieceUp', { kind: 'shift', by: -1 }],
  ['movePieceDown', { kind: 'shift', by: 1 }],
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
      return { kind: 'selectAll' };
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
