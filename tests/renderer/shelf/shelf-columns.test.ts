/** Rows of the shelf: what is typed is what is stored, and what cannot be read says why at its field. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { StockItem } from '../../../core/stock/stock-item.ts';
import { compareStockItems } from '../../../core/stock/stock-order.ts';
import { stockItemWords } from '../../../core/stock/stock-words.ts';
import { nextRow, readRow, textsOf } from '../../../renderer/shelf/shelf-columns.ts';
import { wordFinder } from '../../../renderer/shelf/shelf-search.ts';
import { possible } from '../../core/stock/possible-stock.ts';

const unit = fc.constantFrom('in' as const, 'mm' as const);
const length = fc.oneof(
  fc.record({
    value: fc.integer({ min: 1, max: 64 * 400 }).map((parts) => parts / 64),
    unit: fc.constant('in' as const),
  }),
  fc.record({ value: fc.double({ min: 0.001, max: 9000, noNaN: true }), unit }),
);
const common = {
  id: fc.constant('item1'),
  material: fc.constantFrom('304 stainless', 'mild steel', 'Inconel "625", thin'),
  od: length,
  wall: length,
  count: fc.integer({ min: 0, max: 100_000 }),
  note: fc.constantFrom('', 'one is scratched', 'a, b; "c"'),
};
const item: fc.Arbitrary<StockItem> = fc.oneof(
  fc.record({
    kind: fc.constant('bend' as const),
    ...common,
    clr: length,
    angleDeg: fc.double({ min: 0.01, max: 360, noNaN: true }),
    legs: fc.tuple(length, length),
  }),
  fc.record({ kind: fc.constant('straight' as const), ...common, length }),
);

test('the texts of an item read back to exactly the item, whatever the unit of bare numbers', () => {
  fc.assert(
    fc.property(possible(item), unit, (given, bare) => {
      const read = readRow(textsOf(given), { id: given.id, kind: given.kind, unit: bare });
      expect(read).toEqual({ ok: true, item: given, said: '' });
    }),
  );
});

const BEND = {
  material: '304 stainless',
  od: '1 3/4',
  wall: '0.065',
  clr: '3',
  angle: '90',
  leg_a: '4',
  leg_b: '',
  count: '',
};
const context = { id: 'b1', kind: 'bend', unit: 'in' } as const;

describe('a typed row', () => {
  test('has one of it when no count is typed, and no leg where none is typed', () => {
    const read = readRow(BEND, context);
    expect(read.ok && read.item).toMatchObject({
      kind: 'bend',
      od: { value: 1.75, unit: 'in' },
      angleDeg: 90,
      legs: [
        { value: 4, unit: 'in' },
        { value: 0, unit: 'in' },
      ],
      count: 1,
    });
  });

  test('takes bare numbers in the unit asked for, and keeps a unit that is typed', () => {
    const read = readRow({ ...BEND, clr: '76.2', wall: '1.65', leg_a: '', od: '1 3/4 in' }, { ...context, unit: 'mm' });
    expect(read.ok && read.item).toMatchObject({ clr: { value: 76.2, unit: 'mm' }, od: { value: 1.75, unit: 'in' } });
  });

  test('names every field that cannot be read at once', () => {
    const read = readRow({ ...BEND, wall: '', od: '1 3/', angle: 'flat', count: '2.5' }, context);
    expect(Object.keys(read.ok ? {} : read.problems).sort()).toEqual(['angle', 'count', 'od', 'wall']);
  });

  test('names every value that is out of range at once', () => {
    const read = readRow({ ...BEND, material: ' ', clr: '0', angle: '400' }, context);
    expect(Object.keys(read.ok ? {} : read.problems).sort()).toEqual(['angle', 'clr', 'material']);
  });

  test.each([
    ['clr', '-3'],
    ['clr', '0'],
    ['wall', ''],
    ['angle', '0'],
    ['leg_b', '1,5'],
    ['count', '-1'],
  ] as const)('with %s as %j is refused with a sentence there', (column, text) => {
    const read = readRow({ ...BEND, [column]: text }, context);
    expect(read.ok ? null : read.problems[column]).toMatch(/\S+ \S+/);
  });
});

test('the next row keeps the tube, CLR and legs, and asks for the rest', () => {
  expect(nextRow({ ...BEND, note: 'bent' }, 'bend')).toEqual({
    material: '304 stainless',
    od: '1 3/4',
    wall: '0.065',
    clr: '3',
    leg_a: '4',
    leg_b: '',
    cost: '',
  });
});

describe('the order of the shelf', () => {
  const bend = (id: string, angle: string, clr = '3'): StockItem => {
    const read = readRow({ ...BEND, angle, clr }, { ...context, id });
    if (!read.ok) throw new Error('not a row');
    return read.item;
  };

  test('is by CLR before angle, as numbers and in one unit', () => {
    const items = [bend('a', '90'), bend('b', '45'), bend('c', '180', '2'), bend('d', '30', '60 mm')];
    expect([...items].sort(compareStockItems).map(({ id }) => id)).toEqual(['c', 'd', 'b', 'a']);
  });

  test('is a total order', () => {
    fc.assert(
      fc.property(item, item, item, (one, two, three) => {
        expect(compareStockItems(one, one)).toBe(0);
        expect(Math.sign(compareStockItems(one, two)) + Math.sign(compareStockItems(two, one))).toBe(0);
        if (compareStockItems(one, two) <= 0 && compareStockItems(two, three) <= 0)
          expect(compareStockItems(one, three)).toBeLessThanOrEqual(0);
      }),
    );
  });

  test('an item is found by words of it, and not by words that it does not have', () => {
    const found = bend('a', '90');
    expect(stockItemWords(found)).toBe('304 stainless 1 3/4" bend, CLR 3", 90 degrees');
    expect(['', 'STAIN', '304 90'].map((words) => wordFinder(words)(found))).toEqual([true, true, true]);
    expect(['3"', '3 in', '1 3/4 in'].map((words) => wordFinder(words)(found))).toEqual([true, true, true]);
    expect(wordFinder('mild')(found)).toBe(false);
  });
});
