/** Which rows are selected by keys, by Shift and by Ctrl. */

import { expect, test } from 'vitest';
import {
  extendedTo,
  onlyCell,
  type RowSelection,
  selectedRows,
  withToggled,
} from '../../../renderer/bench/grid/row-selection.ts';

const PIECES = ['a', 'b', 'c', 'd', 'e'].map((id) => ({ id }));
const at = (row: number) => ({ row, column: 2 });
const rows = (selection: RowSelection) => [...selectedRows(selection, PIECES)];

test('one cell selects its row, and Shift all from there to another, either way', () => {
  expect(rows(onlyCell(at(2)))).toEqual([2]);
  expect(rows(extendedTo(onlyCell(at(2)), at(4)))).toEqual([2, 3, 4]);
  expect(rows(extendedTo(extendedTo(onlyCell(at(2)), at(4)), at(0)))).toEqual([0, 1, 2]);
});

test('Ctrl adds a row, and takes it out again, whatever the others', () => {
  const two = withToggled(onlyCell(at(0)), at(3), PIECES);
  expect(rows(two)).toEqual([0, 3]);
  expect(two.cell?.row).toBe(3);
  expect(rows(withToggled(two, at(3), PIECES))).toEqual([0]);
  const range = extendedTo(onlyCell(at(1)), at(3));
  const holed = withToggled(range, at(2), PIECES);
  expect(rows(holed)).toEqual([1, 3]);
  expect(holed.cell?.row).toBe(3);
  expect(rows(extendedTo(holed, at(4)))).toEqual([3, 4]);
});

test('the last row selected stays selected, and pieces that are gone select nothing', () => {
  const one = onlyCell(at(1));
  expect(withToggled(one, at(1), PIECES)).toBe(one);
  expect(rows({ cell: at(0), anchorRow: null, pickedIds: ['gone'] })).toEqual([0]);
  expect(rows({ cell: null, anchorRow: null, pickedIds: ['a'] })).toEqual([]);
});
