/** The stock book on disk: its movements add up to the shelf after whatever was done, by whichever process, and nothing is lost from it. */

import { copyFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { ShelfChange } from '../../../../core/stock/ledger/shelf-change.ts';
import { adding, retiring, setting } from '../../../shelf-changes.ts';
import {
  openShop,
  problemOf,
  type Shop,
  stockStraight,
  temporaryFolder,
  withDatabase,
  withoutTrigger,
} from '../shop.ts';

/** What the movements of each row that is on the shelf add up to, in plain SQL. */
function sumsOnDisk(file: string): Record<string, number> {
  const sql = `SELECT s.id, coalesce(sum(m.pieces), 0) AS pieces, s.is_retired FROM stock AS s
    LEFT JOIN movements AS m ON m.item_id = s.id GROUP BY s.id`;
  const rows = withDatabase(file, (db) =>
    db.prepare<[], { id: string; pieces: number; is_retired: number }>(sql).all(),
  );
  for (const row of rows) if (row.is_retired === 1) expect(row.pieces, `${row.id} is off the shelf`).toBe(0);
  return Object.fromEntries(rows.filter(({ is_retired }) => is_retired === 0).map(({ id, pieces }) => [id, pieces]));
}

async function countsOf(shop: Shop): Promise<Record<string, number>> {
  const { stock } = await shop.must('listStock', {});
  return Object.fromEntries(stock.map(({ item }) => [item.id, item.count]));
}

const cut = (itemId: string, pieces: number): ShelfChange => ({ kind: 'move', itemId, pieces, reason: 'cut' });

describe('what lies on the shelf', () => {
  test('is the sum of its movements after any commits, counts, take-backs and restarts, and the same for a second process', async () => {
    const ids = ['a', 'b', 'c'];
    const act = fc.record({
      kind: fc.constantFrom('add', 'count', 'cut', 'receive', 'retire', 'undo', 'redo', 'plan', 'restart'),
      id: fc.constantFrom(...ids),
      pieces: fc.integer({ min: 1, max: 5 }),
      bySecond: fc.boolean(),
    });
    await fc.assert(
      fc.asyncProperty(fc.array(act, { minLength: 5, maxLength: 25 }), async (acts) => {
        let shop = openShop(temporaryFolder({ fast: true }));
        const second = openShop(shop.folder);
        await shop.must('start', {});
        const model = new Map<string, number>();
        const past: { before: Map<string, number>; after: Map<string, number> }[] = [];
        let at = 0;
        const did = (ok: boolean, after: Map<string, number>) => {
          if (!ok) return;
          past.splice(at, Infinity, { before: new Map(model), after });
          at += 1;
          model.clear();
          for (const [id, count] of after) model.set(id, count);
        };
        const put = (to: Map<string, number> | undefined) => {
          model.clear();
          for (const [id, count] of to ?? []) model.set(id, count);
        };
        for (const { kind, id, pieces, bySecond } of acts) {
          const host = bySecond ? second : shop;
          const now = model.get(id);
          const { stock } = await host.must('listStock', {});
          const stored = stock.find(({ item }) => item.id === id);
          const after = new Map(model);
          if (kind === 'add') {
            const made = await host.call('changeShelf', adding(stockStraight(id, 'tube', pieces)));
            expect(made.ok).toBe(now === undefined);
            did(made.ok, after.set(id, pieces));
          } else if (kind === 'count' && stored) {
            const made = await host.call('changeShelf', setting({ ...stored.item, count: pieces }, stored.revision));
            did(made.ok, after.set(id, pieces));
          } else if (kind === 'cut' || kind === 'receive') {
            const reason = kind === 'cut' ? 'cut' : 'received';
            const changes: ShelfChange[] = [{ kind: 'move', itemId: id, pieces, reason }];
            const made = await host.call('changeShelf', { changes, because: '' });
            const left = (now ?? Number.NEGATIVE_INFINITY) + (kind === 'cut' ? -pieces : pieces);
            expect(made.ok).toBe(left >= 0);
            did(made.ok, after.set(id, left));
          } else if (kind === 'retire' && stored) {
            const made = await host.must('changeShelf', retiring(id, stored.revision));
            after.delete(id);
            did(made.gone.includes(id), after);
          } else if (kind === 'plan') {
            const made = await host.call('changeShelf', {
              changes: ids.map((each) => cut(each, 1)),
              because: 'Cut plan',
            });
            expect(made.ok).toBe(ids.every((each) => (model.get(each) ?? 0) >= 1));
            for (const each of ids) after.set(each, (model.get(each) ?? 0) - 1);
            did(made.ok, after);
          } else if (kind === 'undo' || kind === 'redo') {
            const next = (await host.must('readShelfHistory', {}))[kind];
            expect(next !== null).toBe(kind === 'undo' ? at > 0 : at < past.length);
            if (next === null) continue;
            await host.must('turnShelfBack', { action: kind, step: next.step });
            if (kind === 'undo') at -= 1;
            put(kind === 'undo' ? past[at]?.before : past[at]?.after);
            if (kind === 'redo') at += 1;
          } else if (kind === 'restart') {
            await shop.close();
            shop = openShop(shop.folder);
          }
          const expected = Object.fromEntries(model);
          expect(await countsOf(shop)).toEqual(expected);
          expect(await countsOf(second)).toEqual(expected);
        }
        expect(sumsOnDisk(shop.file)).toEqual(Object.fromEntries(model));
        await shop.close();
        await second.close();
      }),
      { numRuns: process.env['EVENRUN_LONG'] === '1' ? 1000 : 40, seed: 140 },
    );
  }, 300_000);

  test('a refused step changes nothing, though its first changes could have been made', async () => {
    const shop = openShop();
    await shop.must('changeShelf', adding(stockStraight('a', 'tube', 5), stockStraight('b', 'tube', 1)));
    const refused = await shop.call('changeShelf', { changes: [cut('a', 2), cut('b', 2)], because: 'Cut plan' });
    expect(problemOf(refused)).toMatchObject({ kind: 'stockNotEnough', has: 1, wanted: 2 });
    expect(await countsOf(shop)).toEqual({ a: 5, b: 1 });
    expect(sumsOnDisk(shop.file)).toEqual({ a: 5, b: 1 });
  });

  test('many movements are one step, and are taken back as one, also after a later step of other rows', async () => {
    const shop = openShop();
    await shop.must('changeShelf', adding(stockStraight('a', 'tube', 5), stockStraight('b', 'tube', 4)));
    const remnant = { ...stockStraight('r', 'tube', 1), cutFrom: 'a', length: { value: 6, unit: 'in' as const } };
    const changes: ShelfChange[] = [cut('a', 2), cut('b', 1), { kind: 'add', item: remnant }];
    const { step } = await shop.must('changeShelf', { changes, because: 'Cut plan: Hill-climb four' });
    expect(await countsOf(shop)).toEqual({ a: 3, b: 3, r: 1 });
    await shop.must('changeShelf', adding(stockStraight('c', 'tube', 1)));
    await shop.must('turnShelfBack', { action: 'undo', step });
    expect(await countsOf(shop)).toEqual({ a: 5, b: 4, c: 1 });
    expect(problemOf(await shop.call('turnShelfBack', { action: 'undo', step }))?.kind).toBe('nothingToUndo');
    await shop.must('turnShelfBack', { action: 'redo', step });
    expect(await countsOf(shop)).toEqual({ a: 3, b: 3, c: 1, r: 1 });
  });
});

test('why a count is what it is: every movement with its time, reason and step, the latest first', async () => {
  const shop = openShop();
  await shop.must('changeShelf', adding(stockStraight('a', 'tube', 5)));
  shop.setClock('2026-03-02T09:30:00Z');
  const { step } = await shop.must('changeShelf', { changes: [cut('a', 2)], because: 'Cut plan: Hill-climb four' });
  await shop.must('turnShelfBack', { action: 'undo', step });
  const { movements } = await shop.must('readMovements', { itemId: 'a' });
  expect(movements.map(({ pieces, reason, left }) => [pieces, reason, left])).toEqual([
    [2, 'takenBack', 5],
    [-2, 'cut', 3],
    [5, 'received', 5],
  ]);
  expect(movements[1]).toMatchObject({ movedAt: '2026-03-02T09:30:00.000Z', label: 'Cut plan: Hill-climb four' });
  expect((await shop.must('readMovements', { itemId: 'nobody' })).movements).toEqual([]);
});

describe('the book keeps everything', () => {
  const wrongs = [
    ['a movement changed', 'UPDATE movements SET pieces = 9'],
    ['a movement deleted', 'DELETE FROM movements'],
    ['a step changed', "UPDATE shelf_steps SET label = 'x'"],
    ['a step deleted', 'DELETE FROM shelf_steps'],
    ['a row deleted', 'DELETE FROM stock'],
  ] as const;
  test.each(wrongs)('%s is refused by the database itself', async (_what, sql) => {
    const shop = openShop();
    await shop.must('changeShelf', adding(stockStraight('a')));
    await shop.close();
    expect(() => withDatabase(shop.file, (db) => db.exec(sql))).toThrow(/append-only|retired, not deleted/);
  });

  test('a row that was taken off is still explained, and comes back by undo with all of it', async () => {
    const shop = openShop();
    await shop.must('changeShelf', adding(stockStraight('a', 'tube', 5)));
    const { step } = await shop.must('changeShelf', retiring('a', 1));
    expect((await shop.must('readMovements', { itemId: 'a' })).movements[0]).toMatchObject({ pieces: -5, left: 0 });
    await shop.must('turnShelfBack', { action: 'undo', step });
    expect(await countsOf(shop)).toEqual({ a: 5 });
  });
});

describe('damage', () => {
  async function damagedShop(
    damage: (file: string) => void,
  ): Promise<{ readonly shop: Shop; readonly notices: string }> {
    const shop = openShop();
    await shop.must('changeShelf', adding(stockStraight('a', 'tube', 5), stockStraight('b', 'tube', 4)));
    await shop.must('changeShelf', { changes: [cut('a', 1)], because: '' });
    await shop.close();
    const folder = temporaryFolder();
    copyFileSync(shop.file, join(folder, 'evenrun.sqlite'));
    damage(join(folder, 'evenrun.sqlite'));
    const damaged = openShop(folder);
    const started = await damaged.must('start', {});
    return { shop: damaged, notices: started.state === 'ready' ? started.notices.join() : started.state };
  }

  test('of a movement leaves all other rows as they are, marks its own until it is counted, and is said', async () => {
    const { shop, notices } = await damagedShop((file) =>
      withoutTrigger(file, 'movements_no_update', (db) => db.exec('UPDATE movements SET pieces = 50 WHERE place = 1')),
    );
    expect(notices).toContain('movements: 1 of 3 rows');
    const marks = async () =>
      (await shop.must('listStock', {})).stock.map(({ item, isDoubtful }) => [item.id, item.count, isDoubtful]);
    expect(await marks()).toEqual([
      ['a', 0, true],
      ['b', 4, false],
    ]);
    const [doubtful] = (await shop.must('listStock', {})).stock;
    if (doubtful === undefined) throw new Error('the row is gone');
    await shop.must('changeShelf', setting({ ...doubtful.item, count: 3 }, doubtful.revision));
    expect(await marks()).toEqual([
      ['a', 3, false],
      ['b', 4, false],
    ]);
    const again = openShop(shop.folder);
    await shop.close();
    expect((await again.must('listStock', {})).stock[0]).toMatchObject({ item: { count: 3 }, isDoubtful: false });
  });

  test('of a step leaves every count as it is; it cannot be taken back, what came before it can', async () => {
    const { shop, notices } = await damagedShop((file) =>
      withoutTrigger(file, 'shelf_steps_no_update', (db) =>
        db.exec("UPDATE shelf_steps SET label = 'x' WHERE place = 2"),
      ),
    );
    expect(notices).toContain('shelf_steps: 1 of 2 rows');
    expect(await countsOf(shop)).toEqual({ a: 4, b: 4 });
    expect(problemOf(await shop.call('turnShelfBack', { action: 'undo', step: 2 }))?.kind).toBe('nothingToUndo');
    expect((await shop.must('readShelfHistory', {})).undo?.step).toBe(1);
    await shop.must('changeShelf', { changes: [cut('b', 1)], because: '' });
    expect(await countsOf(shop)).toEqual({ a: 4, b: 3 });
  });

  test('by which a movement is gone is said', async () => {
    const { notices } = await damagedShop((file) =>
      withoutTrigger(file, 'movements_no_delete', (db) => db.exec('DELETE FROM movements WHERE place = 1')),
    );
    expect(notices).toContain('rows missing from the stock book: 1');
  });
});
