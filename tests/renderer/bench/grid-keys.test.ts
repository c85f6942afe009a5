/** Every key of the piece grid. */

import { describe, expect, test } from 'vitest';
import {
  actOnCell,
  type Cell,
  cellAfterCommit,
  gridSize,
  type KeyPress,
} from '../../../renderer/bench/grid/grid-keys.ts';

const SIZE = gridSize(20);
const AT: Cell = { row: 5, column: 2 };
const press = (key: string, held: Partial<KeyPress> = {}): KeyPress => ({
  key,
  ctrl: false,
  alt: false,
  shift: false,
  ...held,
});
const ctrl = { ctrl: true };
const go = (row: number, column: number) => ({ kind: 'go', to: { row, column } });

describe('moving', () => {
  test.each([
    ['ArrowUp', {}, go(4, 2)],
    ['ArrowDown', {}, go(6, 2)],
    ['ArrowLeft', {}, go(5, 1)],
    ['ArrowRight', {}, go(5, 3)],
    ['Home', {}, go(5, 0)],
    ['End', {}, go(5, 6)],
    ['Home', ctrl, go(0, 0)],
    ['End', ctrl, go(19, 6)],
    ['PageUp', {}, go(0, 2)],
    ['PageDown', {}, go(15, 2)],
  ])('%s with %o', (key, held, act) => {
    expect(actOnCell(press(key, held), AT, SIZE)).toEqual(act);
  });

  test('stops at the edges, but goes on to the entry line below the last row', () => {
    expect(actOnCell(press('ArrowUp'), { row: 0, column: 0 }, SIZE)).toEqual(go(0, 0));
    expect(actOnCell(press('ArrowRight'), { row: 0, column: 6 }, SIZE)).toEqual(go(0, 6));
    expect(actOnCell(press('ArrowDown'), { row: 19, column: 3 }, SIZE)).toEqual({ kind: 'leave' });
  });

  test('Shift and an arrow, and Ctrl+A, select rows', () => {
    expect(actOnCell(press('ArrowDown', { shift: true }), AT, SIZE)).toEqual({
      kind: 'extend',
      to: { row: 6, column: 2 },
    });
    expect(actOnCell(press('a', ctrl), AT, SIZE)).toEqual({ kind: 'selectAll' });
  });
});

describe('acting', () => {
  test.each([
    ['Enter', {}, { kind: 'edit', text: null }],
    ['F2', {}, { kind: 'edit', text: null }],
    ['7', {}, { kind: 'edit', text: '7' }],
    ['b', {}, { kind: 'edit', text: 'b' }],
    ['-', {}, { kind: 'edit', text: '-' }],
    ['Delete', {}, { kind: 'clear' }],
    [' ', {}, { kind: 'stateMenu' }],
    ['s', {}, { kind: 'edit', text: 's' }],
    ['p', {}, { kind: 'edit', text: 'p' }],
    ['n', {}, { kind: 'note' }],
    ['l', {}, { kind: 'toggleLock' }],
    ['L', { shift: true }, { kind: 'toggleLock' }],
    ['Insert', {}, { kind: 'insert' }],
    ['i', ctrl, { kind: 'insert' }],
    ['Delete', ctrl, { kind: 'remove' }],
    ['Backspace', ctrl, { kind: 'remove' }],
    ['d', ctrl, { kind: 'duplicate' }],
    ['c', ctrl, { kind: 'copy' }],
    ['x', ctrl, { kind: 'cut' }],
    ['ArrowUp', { alt: true }, { kind: 'shift', by: -1 }],
    ['ArrowDown', { alt: true }, { kind: 'shift', by: 1 }],
  ])('%s with %o', (key, held, act) => {
    expect(actOnCell(press(key, held), AT, SIZE)).toEqual(act);
  });

  test.each([
    ['p', { kind: 'setState', state: 'planned' }],
    ['c', { kind: 'setState', state: 'cut' }],
    ['T', { kind: 'setState', state: 'tacked' }],
    ['w', { kind: 'setState', state: 'welded' }],
    ['l', { kind: 'toggleLock' }],
    ['Enter', { kind: 'edit', text: null }],
    ['7', null],
    ['b', null],
  ])('%s in the state column', (key, act) => {
    expect(actOnCell(press(key), { row: 5, column: 6 }, SIZE)).toEqual(act);
  });

  test.each([
    ['z', ctrl],
    ['ArrowDown', ctrl],
    ['3', { alt: true }],
    ['Tab', {}],
    ['Shift', { shift: true }],
    ['F1', {}],
  ])('%s with %o is not the grid’s business', (key, held) => {
    expect(actOnCell(press(key, held), AT, SIZE)).toBeNull();
  });
});

describe('after an accepted edit', () => {
  test('Enter goes down, Tab right, Shift the other way', () => {
    expect(cellAfterCommit(press('Enter'), AT, SIZE)).toEqual({ row: 6, column: 2 });
    expect(cellAfterCommit(press('Enter', { shift: true }), AT, SIZE)).toEqual({ row: 4, column: 2 });
    expect(cellAfterCommit(press('Tab'), AT, SIZE)).toEqual({ row: 5, column: 3 });
    expect(cellAfterCommit(press('Tab', { shift: true }), { row: 5, column: 0 }, SIZE)).toEqual({ row: 4, column: 6 });
    expect(cellAfterCommit(press('Tab'), { row: 5, column: 6 }, SIZE)).toEqual({ row: 6, column: 0 });
  });

  test('past the end is the entry line, before the start stays', () => {
    expect(cellAfterCommit(press('Enter'), { row: 19, column: 2 }, SIZE)).toBe('leave');
    expect(cellAfterCommit(press('Tab'), { row: 19, column: 6 }, SIZE)).toBe('leave');
    expect(cellAfterCommit(press('Tab', { shift: true }), { row: 0, column: 0 }, SIZE)).toEqual({ row: 0, column: 0 });
  });
});
