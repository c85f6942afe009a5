/** The archive found by all that a finished header is, page by page, and in order of likeness. */

import { describe, expect, test } from 'vitest';
import type { Edit } from '../../../core/edits/edit.ts';
import { inches } from '../../../core/units/length.ts';
import { EVERYTHING } from '../../archive-asked.ts';
import { adding } from '../../shelf-changes.ts';
import {
  addPrimary,
  doStep,
  headerWith,
  openShop,
  type Shop,
  stepId,
  stockStraight,
  straight,
  withDatabase,
  withoutTrigger,
} from './shop.ts';

/** Straights of the given lengths in inches, one a primary: the target is the longest. */
async function finished(shop: Shop, name: string, lengths: readonly number[], more: readonly Edit[] = []) {
  const primaries = lengths.map((length, at) => addPrimary(`p${at}`, [straight(`s${at}`, length)]));
  return (await headerWith(shop, [...primaries, ...more, { kind: 'finishHeader' }], name)).header.id;
}

const tube = (material: string, od: number): Edit => ({
  kind: 'setSettings',
  set: { tube: { material, od: inches(od), wall: inches(0.065) } },
});

const named = async (shop: Shop, over: Partial<typeof EVERYTHING> = {}) =>
  (await shop.must('searchArchive', { ...EVERYTHING, ...over })).rows.map(({ name }) => name);

test('found by material alone, by spread and by the day of finishing, both ends included', async () => {
  const shop = openShop();
  shop.setClock('2026-03-01T12:00:00Z');
  await finished(shop, 'Even', [20, 20]);
  shop.setClock('2026-03-02T12:00:00Z');
  await finished(shop, 'Mild, uneven', [20, 20.5], [tube('Mild steel', 1.75)]);
  expect(await named(shop, { material: 'MILD' })).toEqual(['Mild, uneven']);
  expect(await named(shop, { words: 'mild' })).toEqual(['Mild, uneven']);
  expect(await named(shop, { material: 'uneven' })).toEqual([]);
  expect(await named(shop, { spreadMm: { lowMm: 0, highMm: 12.7 } })).toEqual(['Mild, uneven', 'Even']);
  expect(await named(shop, { spreadMm: { lowMm: 0, highMm: 12.6 } })).toEqual(['Even']);
  expect(await named(shop, { spreadMm: { lowMm: 12.7, highMm: 12.7 } })).toEqual(['Mild, uneven']);
  const at = (iso: string) => new Date(iso).getTime();
  const days = (low: string, high: string) => named(shop, { finishedAt: { low: at(low), high: at(high) } });
  expect(await days('2026-03-01T12:00:00Z', '2026-03-01T12:00:00Z')).toEqual(['Even']);
  expect(await days('2026-03-01T12:00:01Z', '2026-03-02T12:00:00Z')).toEqual(['Mild, uneven']);
  expect(await days('2026-03-02T12:00:01Z', '2026-12-31T00:00:00Z')).toEqual([]);
});

test('comes in pages that together are all, with the count of all in each', async () => {
  const shop = openShop();
  for (const name of ['One', 'Two', 'Three', 'Four', 'Five']) await finished(shop, name, [10]);
  const page = async (from: number) => await shop.must('searchArchive', { ...EVERYTHING, from, most: 2 });
  const pages = [await page(0), await page(2), await page(4), await page(6)];
  expect(pages.map(({ count }) => count)).toEqual([5, 5, 5, 5]);
  expect(pages.map(({ rows }) => rows.map(({ name }) => name))).toEqual([
    ['Five', 'Four'],
    ['Three', 'Two'],
    ['One'],
    [],
  ]);
});

describe('in order of likeness', () => {
  test('to an open header: tube first apart by a size, then a primary more, then 10 % of length', async () => {
    const shop = openShop();
    // 10 % longer is 2, two primaries more are 2, a size of tube is 1: and of equal ones the last finished is first.
    await finished(shop, 'Longer by a tenth', [22, 22]);
    await finished(shop, 'Next size', [20, 20], [tube('304 stainless', 1.875)]);
    await finished(shop, 'A four', [20, 20, 20, 20]);
    await finished(shop, 'Alike', [20, 20]);
    await finished(shop, 'Far', [30, 30, 30], [tube('mild steel', 2.5)]);
    const wanted = await headerWith(shop, [addPrimary('a', [straight('s', 20)]), addPrimary('b')], 'In hand');
    const { rows, like } = await shop.must('searchArchive', { ...EVERYTHING, likeId: wanted.header.id });
    expect(rows.map(({ name }) => name)).toEqual(['Alike', 'Next size', 'A four', 'Longer by a tenth', 'Far']);
    expect(like).toMatchObject({ name: 'In hand', primaryCount: 2, targetMm: 508 });
  });

  test('to a finished one, which is not among them, and only those that fit the search', async () => {
    const shop = openShop();
    const likeId = await finished(shop, 'This one', [20, 20]);
    await finished(shop, 'Twin', [20, 20]);
    await finished(shop, 'Cousin', [21, 21]);
    expect(await named(shop, { likeId })).toEqual(['Twin', 'Cousin']);
    expect(await named(shop, { likeId, words: 'cousin' })).toEqual(['Cousin']);
  });

  test('to a header that is not there: the last finished first, and it says so', async () => {
    const shop = openShop();
    await finished(shop, 'One', [20]);
    await finished(shop, 'Two', [20]);
    const { rows, like } = await shop.must('searchArchive', { ...EVERYTHING, likeId: 'nobody' });
    expect([rows.map(({ name }) => name), like]).toEqual([['Two', 'One'], null]);
  });
});

test('figures that were changed behind the back of the program are worked out again and marked', async () => {
  const shop = openShop();
  await finished(shop, 'Honest', [20, 20.5]);
  await shop.close();
  withoutTrigger(shop.file, 'archive_no_update', (db) =>
    db.prepare(`UPDATE archive SET figures = replace(figures, '"spreadMm":12.7', '"spreadMm":0.1')`).run(),
  );
  withDatabase(shop.file, (db) => {
    expect(db.prepare('SELECT figures FROM archive').pluck().get()).toContain('"spreadMm":0.1');
  });
  const [row] = (await openShop(shop.folder).must('searchArchive', EVERYTHING)).rows;
  expect(row).toMatchObject({ name: 'Honest', isDamaged: true });
  expect(row?.spreadMm).toBeCloseTo(12.7, 9);
});

describe("the shop's figures", () => {
  const readFigures = async (shop: Shop) => await shop.must('readShopFigures', {});

  test('of an empty shop are empty', async () => {
    expect(await readFigures(openShop())).toEqual({ finished: [], tubeLeft: [] });
  });

  test('have no spread of a header with a single primary', async () => {
    const shop = openShop();
    await finished(shop, 'Single', [20]);
    await finished(shop, 'Pair', [20, 20.5]);
    const spreads = (await readFigures(shop)).finished.map(({ name, spreadMm }) => [name, spreadMm]);
    expect(spreads).toEqual([
      ['Single', null],
      ['Pair', expect.closeTo(12.7, 9)],
    ]);
  });

  test('count joints that were opened while a header was made, undone steps left out and done again ones once', async () => {
    const shop = openShop();
    const shorter = (length: number): Edit => ({ kind: 'replacePiece', primaryId: 'a', piece: straight('s2', length) });
    // Two tacked straights: the joint between them and the one at the flange. The first comes off at both ends to be longer.
    const pieces = [straight('s2', 10), straight('s3', 10)];
    const { header, revision } = await headerWith(shop, [addPrimary('a', pieces), shorter(12)], 'Made twice');
    const steps = [
      doStep(shorter(13)),
      { action: 'undo' as const, stepId: stepId() },
      { action: 'redo' as const, stepId: stepId() },
      { action: 'undo' as const, stepId: stepId() },
      doStep({ kind: 'finishHeader' }),
    ];
    await shop.must('commitSteps', { headerId: header.id, baseRevision: revision, steps });
    expect((await readFigures(shop)).finished).toMatchObject([{ name: 'Made twice', jointsOpened: 2 }]);
    expect((await shop.must('searchArchive', EVERYTHING)).rows[0]?.jointsOpened).toBe(2);
  });

  test('say what tube was left at the end of each day on which the shelf changed', async () => {
    const shop = openShop();
    shop.setClock('2026-03-01T08:00:00Z');
    // Two straights of 48 in, then one of them gone, then another row of three.
    await shop.must('changeShelf', adding(stockStraight('s1')));
    shop.setClock('2026-03-02T08:00:00Z');
    const gone = { kind: 'move', itemId: 's1', pieces: 1, reason: 'cut' } as const;
    await shop.must('changeShelf', { changes: [gone], because: '' });
    shop.setClock('2026-03-02T18:00:00Z');
    await shop.must('changeShelf', adding(stockStraight('s2', 'mild steel', 3)));
    const left = (await readFigures(shop)).tubeLeft;
    expect(left.map(({ at, mm }) => [at.slice(0, 10), Math.round(mm * 10) / 10])).toEqual([
      ['2026-03-01', 2438.4],
      ['2026-03-02', 4876.8],
    ]);
  });
});
