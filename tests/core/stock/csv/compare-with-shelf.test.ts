/** A stock list beside the shelf: what is new, what changes a count, and a list brought in twice that changes nothing. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { compareWithShelf } from '../../../../core/stock/csv/compare-with-shelf.ts';
import { readStockRows } from '../../../../core/stock/csv/read-stock-rows.ts';
import { stockRows } from '../../../../core/stock/csv/stock-rows.ts';
import type { StockItem } from '../../../../core/stock/stock-item.ts';
import { inches, millimetres } from '../../../../core/units/length.ts';

const TUBE = { material: '304 stainless', od: inches(1.75), wall: inches(0.065) };
const BEND: StockItem = {
  ...TUBE,
  kind: 'bend',
  id: 'b',
  clr: inches(3),
  angleDeg: 90,
  legs: [inches(4), inches(4)],
  count: 4,
  note: 'rack 2',
};
const STRAIGHT: StockItem = { ...TUBE, kind: 'straight', id: 's', length: inches(48), count: 2, note: '' };

const kinds = (shelf: readonly StockItem[], list: readonly StockItem[]) =>
  compareWithShelf(shelf, list).map(({ kind }) => kind);

describe('a line of the list', () => {
  test('with another count is the item on the shelf, counted anew', () => {
    const line = { ...BEND, id: 'line', count: 6 };
    expect(compareWithShelf([STRAIGHT, BEND], [line])).toEqual([
      { kind: 'recount', item: { ...BEND, count: 6 }, before: 4 },
    ]);
  });

  test('is the same in other units, in other case and with spaces about its words', () => {
    const line: StockItem = {
      ...BEND,
      id: 'line',
      material: ' 304 Stainless',
      od: millimetres(44.45),
      wall: millimetres(1.65),
      note: 'rack 2 ',
    };
    expect(compareWithShelf([BEND], [line])).toEqual([{ kind: 'same', item: BEND }]);
  });

  test.each<[string, StockItem]>([
    ['kind', { ...STRAIGHT, note: BEND.note }],
    ['material', { ...BEND, material: '321' }],
    ['OD', { ...BEND, od: inches(1.625) }],
    ['wall', { ...BEND, wall: inches(0.049) }],
    ['CLR', { ...BEND, clr: inches(2.5) }],
    ['angle', { ...BEND, angleDeg: 45 }],
    ['first leg', { ...BEND, legs: [inches(2), inches(4)] }],
    ['second leg', { ...BEND, legs: [inches(4), inches(2)] }],
    ['note', { ...BEND, note: 'rack 3' }],
  ])('that differs in its %s is new', (_what, line) => {
    expect(kinds([BEND], [line])).toEqual(['new']);
    expect(kinds([line], [BEND])).toEqual(['new']);
  });

  test('of another length is new', () => {
    expect(kinds([STRAIGHT], [{ ...STRAIGHT, length: inches(47.9) }])).toEqual(['new']);
  });

  test('stands for one item only: of two alike the second is new, and each takes the item with its count', () => {
    expect(kinds([BEND], [BEND, { ...BEND, id: 'again' }])).toEqual(['same', 'new']);
    const other = { ...BEND, id: 'other', count: 9 };
    expect(
      compareWithShelf(
        [BEND, other],
        [
          { ...other, id: 'x' },
          { ...BEND, id: 'y', count: 5 },
        ],
      ),
    ).toEqual([
      { kind: 'same', item: other },
      { kind: 'recount', item: { ...BEND, count: 5 }, before: 4 },
    ]);
  });
});

/** Few values each, so that lists have lines alike. */
const someItems = fc
  .array(
    fc.record({
      isBend: fc.boolean(),
      od: fc.constantFrom(inches(1.75), millimetres(48.3)),
      angleDeg: fc.constantFrom(45, 90),
      count: fc.integer({ min: 0, max: 3 }),
      note: fc.constantFrom('', 'rack 2'),
    }),
    { maxLength: 12 },
  )
  .map((rows) =>
    rows.map(
      ({ isBend, od, angleDeg, count, note }, index): StockItem =>
        isBend
          ? { ...BEND, id: `i${index}`, od, angleDeg, count, note }
          : { ...STRAIGHT, id: `i${index}`, od, count, note },
    ),
  );

/** The list as it comes back from a file, with ids of its own. */
function throughFile(items: readonly StockItem[]): readonly StockItem[] {
  let given = 0;
  const newId = () => {
    given += 1;
    return `line${given}`;
  };
  return readStockRows(stockRows(items), { unit: 'mm', newId }).items;
}

function takenIn(shelf: readonly StockItem[], list: readonly StockItem[]): readonly StockItem[] {
  const lines = compareWithShelf(shelf, list);
  const recounted = new Map(lines.flatMap((line) => (line.kind === 'recount' ? [[line.item.id, line.item]] : [])));
  const added = lines.flatMap((line) => (line.kind === 'new' ? [line.item] : []));
  return [...shelf.map((item) => recounted.get(item.id) ?? item), ...added];
}

describe('laws', () => {
  test('a shelf taken out and brought in again changes nothing', () => {
    fc.assert(
      fc.property(someItems, (shelf) => {
        expect(kinds(shelf, throughFile(shelf))).toEqual(shelf.map(() => 'same'));
      }),
    );
  });

  test('the same list a second time changes nothing', () => {
    fc.assert(
      fc.property(someItems, someItems, (shelf, items) => {
        const list = throughFile(items);
        expect(kinds(takenIn(shelf, list), list)).toEqual(list.map(() => 'same'));
      }),
    );
  });

  test('nothing of the shelf is lost or doubled: as many items as before, and one more for each new line', () => {
    fc.assert(
      fc.property(someItems, someItems, (shelf, items) => {
        const list = throughFile(items);
        const added = kinds(shelf, list).filter((kind) => kind === 'new').length;
        const ids = takenIn(shelf, list).map(({ id }) => id);
        expect(new Set(ids).size).toBe(shelf.length + added);
      }),
    );
  });
});
