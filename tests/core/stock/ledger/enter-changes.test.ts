/** Steps of the stock book: what they write, what they refuse in words, and what taking them back leaves. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { describeProblem } from '../../../../core/describe-problem.ts';
import type { Problem } from '../../../../core/problem.ts';
import type { Result } from '../../../../core/result.ts';
import { describeShelfStep } from '../../../../core/stock/ledger/describe-shelf-step.ts';
import { enterChanges } from '../../../../core/stock/ledger/enter-changes.ts';
import type { ShelfChange } from '../../../../core/stock/ledger/shelf-change.ts';
import type { ShelfRow, ShelfStep } from '../../../../core/stock/ledger/shelf-row.ts';
import { doAgain, keptRows, takeBack } from '../../../../core/stock/ledger/turn-back.ts';
import type { StockBend, StockItem, StockStraight } from '../../../../core/stock/stock-item.ts';
import { inches } from '../../../../core/units/length.ts';

const TUBE = { material: '304 stainless', od: inches(1.75), wall: inches(0.065), note: '' };
const bend = (id: string, count: number, angleDeg = 90): StockBend => ({
  ...TUBE,
  kind: 'bend',
  id,
  clr: inches(3),
  angleDeg,
  legs: [inches(4), inches(4)],
  count,
});
const straight = (id: string, count: number, length = 48): StockStraight => ({
  ...TUBE,
  kind: 'straight',
  id,
  length: inches(length),
  count,
});
const cut = (itemId: string, pieces: number) => ({ kind: 'move', itemId, pieces, reason: 'cut' }) as const;

type Book = Map<string, ShelfRow>;
const bookOf = (...items: readonly StockItem[]): Book =>
  new Map(items.map((item) => [item.id, { item, revision: 1, isRetired: false }]));
const finder = (book: Book) => (id: string) => book.get(id);

function entered(book: Book, changes: readonly ShelfChange[]): ShelfStep {
  const step = enterChanges(finder(book), changes);
  if (!step.ok) throw new Error(step.problems.map(describeProblem).join(' '));
  return step.value;
}

function written(book: Book, { rows }: ShelfStep): Book {
  return new Map([...book, ...rows.map(({ after }) => [after.item.id, after] as const)]);
}

function refusal(step: Result<unknown, Problem>): string {
  return step.ok ? 'not refused' : step.problems.map(describeProblem).join(' ');
}

describe('a step', () => {
  test('of adding receives what there is, of cutting a bend takes it and keeps the remnant', () => {
    const added = entered(new Map(), [{ kind: 'add', item: bend('b', 4) }]);
    expect(added.movements).toEqual([{ itemId: 'b', pieces: 4, reason: 'received' }]);
    const left = { ...bend('r', 1, 30), cutFrom: 'b' };
    const step = entered(written(new Map(), added), [cut('b', 1), { kind: 'add', item: left }]);
    expect(step.movements).toEqual([
      { itemId: 'b', pieces: -1, reason: 'cut' },
      { itemId: 'r', pieces: 1, reason: 'cut' },
    ]);
    expect(step.rows.map(({ after }) => [after.item.id, after.item.count, after.revision])).toEqual([
      ['b', 3, 2],
      ['r', 1, 1],
    ]);
  });

  test('of cutting a leg off a bend keeps it as a straight remnant, up to the legs that the bend has', () => {
    const book = bookOf(bend('b', 4));
    const leg = (length: number) =>
      ({ kind: 'add', item: { ...straight('r', 1, length), cutFrom: 'b' } }) as const satisfies ShelfChange;
    const legs = bend('b', 4).legs.reduce((sum, { value }) => sum + value, 0);
    expect(entered(book, [cut('b', 1), leg(legs)]).movements).toHaveLength(2);
    expect(refusal(enterChanges(finder(book), [cut('b', 1), leg(legs + 1)]))).toMatch(/mm, but only .* mm were cut/);
  });

  test('that counts a row moves the difference, and one that changes a field moves nothing', () => {
    const book = bookOf(bend('b', 4));
    const counted = entered(book, [{ kind: 'set', item: bend('b', 6), revision: 1 }]);
    expect(counted.movements).toEqual([{ itemId: 'b', pieces: 2, reason: 'counted' }]);
    const noted = entered(book, [{ kind: 'set', item: { ...bend('b', 4), note: 'rack 2' }, revision: 1 }]);
    expect(noted.movements).toEqual([]);
  });

  test('that takes a row off scraps what was left of it', () => {
    const step = entered(bookOf(bend('b', 4)), [{ kind: 'retire', itemId: 'b', revision: 1 }]);
    expect(step.movements).toEqual([{ itemId: 'b', pieces: -4, reason: 'scrapped' }]);
    expect(step.rows[0]?.after).toMatchObject({ isRetired: true, item: { count: 0 } });
  });

  test.each([
    [[{ kind: 'add', item: bend('n', 1) }], 'Add 304 stainless 1 3/4" bend, CLR 3", 90 degrees'],
    [[{ kind: 'set', item: bend('b', 6), revision: 1 }], 'Count 304 stainless 1 3/4" bend, CLR 3", 90 degrees: 4 to 6'],
    [[cut('b', 2)], 'Cut 2 of 304 stainless 1 3/4" bend, CLR 3", 90 degrees'],
    [[{ kind: 'retire', itemId: 's', revision: 1 }], 'Remove 304 stainless 1 3/4" straight, 48"'],
    [[cut('b', 1), cut('s', 1)], 'Change 2 rows'],
  ] as const)('%# is named by what it does', (changes, words) => {
    expect(describeShelfStep(entered(bookOf(bend('b', 4), straight('s', 2)), [...changes]))).toBe(words);
  });
});

describe('refused in words, with nothing changed', () => {
  const book = bookOf(bend('b', 2), straight('s', 1));
  test.each([
    ['more cut than there is', [cut('b', 3)], /only 2 of .*bend.* 3 cannot be taken/],
    ['more cut in two goes', [cut('b', 2), cut('b', 1)], /only 0 of .*bend/],
    [
      'a remnant with more degrees than was cut',
      [cut('b', 1), { kind: 'add', item: { ...bend('r', 2, 50), cutFrom: 'b' } }],
      /comes to 100 degrees, but only 90 degrees were cut/,
    ],
    [
      'a remnant longer than was cut',
      [cut('s', 1), { kind: 'add', item: { ...straight('r', 1, 49), cutFrom: 's' } }],
      /comes to 1244.6 mm, but only 1219.2 mm were cut/,
    ],
    [
      'a CLR under half the OD',
      [{ kind: 'add', item: { ...bend('n', 1), clr: inches(0.8) } }],
      /CLR of 0\.8".*less than half of 1 3\/4"/,
    ],
    ['a wall over half the OD', [{ kind: 'add', item: { ...bend('n', 1), wall: inches(1) } }], /wall of 1".*no bore/],
    ['a row at another revision', [{ kind: 'set', item: bend('b', 1), revision: 7 }], /revision/],
    ['a row that is not there', [cut('gone', 1)], /not there any more/],
    ['one more than a row holds', [{ kind: 'move', itemId: 'b', pieces: 99_999, reason: 'received' }], /100001 of/],
  ] as const)('%s', (_what, changes, words) => {
    expect(refusal(enterChanges(finder(book), [...changes]))).toMatch(words);
  });
});

describe('taking back', () => {
  const done = (step: ShelfStep) => ({ rows: keptRows(step), movements: step.movements });

  test('a cut gives the bend back and takes the remnant off; doing it again leaves all as it was after', () => {
    const book = bookOf(bend('b', 4));
    const step = entered(book, [cut('b', 1), { kind: 'add', item: { ...bend('r', 1, 30), cutFrom: 'b' } }]);
    const after = written(book, step);
    const back = takeBack(finder(after), done(step));
    if (!back.ok) throw new Error(refusal(back));
    const before = written(after, back.value);
    expect(before.get('b')?.item).toEqual(bend('b', 4));
    expect(before.get('r')).toMatchObject({ isRetired: true, item: { count: 0 } });
    expect(back.value.movements.map(({ reason }) => reason)).toEqual(['takenBack', 'takenBack']);
    const again = doAgain(finder(before), done(step));
    if (!again.ok) throw new Error(refusal(again));
    const items = (rows: Book) => [...rows.values()].map(({ item, isRetired }) => ({ item, isRetired }));
    expect(items(written(before, again.value))).toEqual(items(after));
  });

  test('is refused once the remnant was used, or a field was changed again', () => {
    const book = bookOf(bend('b', 4));
    const step = entered(book, [cut('b', 1), { kind: 'add', item: { ...bend('r', 1, 30), cutFrom: 'b' } }]);
    const used = written(written(book, step), entered(written(book, step), [cut('r', 1)]));
    expect(refusal(takeBack(finder(used), done(step)))).toMatch(/only 0 of .*remnant/);
    const noted = entered(book, [{ kind: 'set', item: { ...bend('b', 4), note: 'one' }, revision: 1 }]);
    const twice = written(written(book, noted), {
      ...noted,
      rows: [{ before: null, after: { item: { ...bend('b', 4), note: 'two' }, revision: 3, isRetired: false } }],
    });
    expect(refusal(takeBack(finder(twice), done(noted)))).toMatch(/changed or used since/);
  });

  test('any step leaves fields, counts and places as before it', () => {
    const change = fc.oneof(
      fc
        .integer({ min: 0, max: 9 })
        .map((count): ShelfChange => ({ kind: 'set', item: bend('b', count), revision: 1 })),
      fc.constant<ShelfChange>({ kind: 'retire', itemId: 's', revision: 1 }),
      fc.integer({ min: 1, max: 4 }).map((pieces): ShelfChange => cut('b', pieces)),
      fc.integer({ min: 0, max: 9 }).map((count): ShelfChange => ({ kind: 'add', item: straight('n', count) })),
    );
    const book = bookOf(bend('b', 4), straight('s', 3));
    let taken = 0;
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 4 }), (changes) => {
        const step = enterChanges(finder(book), changes);
        if (!step.ok) return;
        taken += 1;
        const after = written(book, step.value);
        const back = takeBack(finder(after), done(step.value));
        if (!back.ok) throw new Error(refusal(back));
        const before = written(after, back.value);
        for (const [id, row] of book) expect(before.get(id)).toMatchObject({ item: row.item, isRetired: false });
        expect(before.get('n')?.isRetired ?? true).toBe(true);
      }),
      { numRuns: 300, seed: 14 },
    );
    expect(taken).toBeGreaterThan(100);
  });
});
