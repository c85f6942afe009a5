/** A row a primary and one for the rest: a step writes those that it changes, and rows that do not fit are never shown. */

import { expect, test } from 'vitest';
import type { Edit } from '../../../core/header/edit.ts';
import {
  addPrimary,
  doStep,
  headerWith,
  openShop,
  problemOf,
  type Shop,
  stepId,
  straight,
  withDatabase,
} from './shop.ts';

function revisionsOf(shop: Shop): Readonly<Record<string, number>> {
  const rows = withDatabase(shop.file, (db) => db.prepare('SELECT id, revision FROM primaries').raw().all());
  return Object.fromEntries(rows as [string, number][]);
}

async function threePrimaries(shop: Shop) {
  const { header, revision } = await headerWith(
    shop,
    ['a', 'b', 'c'].map((id) => addPrimary(id, [straight(`${id}1`)])),
  );
  expect([revision, revisionsOf(shop)]).toEqual([3, { a: 3, b: 3, c: 3 }]);
  const edit = async (baseRevision: number, ...edits: readonly Edit[]) =>
    await shop.must('commitSteps', { headerId: header.id, baseRevision, steps: edits.map(doStep) });
  return { headerId: header.id, edit };
}

const LONGER: Edit = { kind: 'replacePiece', primaryId: 'b', piece: straight('b1', 3) };

test('only the rows of primaries that a step changes are written', async () => {
  const shop = openShop();
  const { headerId, edit } = await threePrimaries(shop);
  await edit(3, LONGER);
  expect(revisionsOf(shop)).toEqual({ a: 3, b: 4, c: 3 });
  await edit(4, { kind: 'setHeader', set: { note: 'x' } }, { kind: 'movePrimary', primaryId: 'a', to: 0 });
  expect(revisionsOf(shop)).toEqual({ a: 3, b: 4, c: 3 });
  await edit(6, { kind: 'removePrimary', primaryId: 'c' });
  expect(revisionsOf(shop)).toEqual({ a: 3, b: 4 });
  await shop.must('commitSteps', { headerId, baseRevision: 7, steps: [{ action: 'undo', stepId: stepId() }] });
  expect(revisionsOf(shop)).toEqual({ a: 3, b: 4, c: 8 });
  const { header } = await openShop(shop.folder).must('openHeader', { headerId });
  expect(header.primaries.map(({ id }) => id)).toEqual(['a', 'c', 'b']);
});

test('the place of a header in the list is written only when another was changed in between', async () => {
  const shop = openShop();
  const { headerId, edit } = await threePrimaries(shop);
  const touchedOf = (id: string) =>
    withDatabase(shop.file, (db) => db.prepare('SELECT touched FROM headers WHERE id = ?').pluck().get(id));
  const first = touchedOf(headerId);
  await edit(3, LONGER);
  expect(touchedOf(headerId)).toBe(first);
  const other = await headerWith(shop, [addPrimary('z')]);
  expect(touchedOf(other.header.id)).toBe(Number(first) + 1);
  await edit(4, { kind: 'setHeader', set: { note: 'x' } });
  expect(touchedOf(headerId)).toBe(Number(first) + 2);
  const { headers } = await shop.must('listHeaders', { place: 'bench' });
  expect(headers.map((row) => row.headerId)).toEqual([headerId, other.header.id]);
});

test('a process that read the header before another changed it writes on top of what is there', async () => {
  const shop = openShop();
  const { headerId, edit } = await threePrimaries(shop);
  const second = openShop(shop.folder);
  await second.must('openHeader', { headerId });
  await edit(3, LONGER);
  const steps = [doStep({ kind: 'replacePiece', primaryId: 'a', piece: straight('a1', 5) })];
  await second.must('commitSteps', { headerId, baseRevision: 4, steps });
  expect(revisionsOf(shop)).toEqual({ a: 5, b: 4, c: 3 });
  const { header } = await shop.must('openHeader', { headerId });
  const lengths = header.primaries.flatMap(({ pieces }) =>
    pieces.map((piece) => piece.kind === 'straight' && piece.length.value),
  );
  expect(lengths).toEqual([2.75, 3, 5]);
});

test('an older version of a row, whole in itself, is damage and is said', async () => {
  const shop = openShop();
  const { headerId, edit } = await threePrimaries(shop);
  const old = withDatabase(shop.file, (db) => db.prepare("SELECT * FROM primaries WHERE id = 'b'").get()) as object;
  await edit(3, LONGER);
  withDatabase(shop.file, (db) =>
    db
      .prepare(
        'UPDATE primaries SET revision = @revision, checksum = @checksum, document = @document WHERE id = @id AND header_id = @header_id',
      )
      .run(old),
  );
  const problem = problemOf(await openShop(shop.folder).call('openHeader', { headerId }));
  expect(problem).toMatchObject({
    kind: 'storage',
    fault: 'corrupt',
    detail: expect.stringMatching(/primary b.*not at 4/),
  });
});

test('a row that is gone is damage and is said', async () => {
  const shop = openShop();
  const { headerId } = await threePrimaries(shop);
  withDatabase(shop.file, (db) => db.exec("DELETE FROM primaries WHERE id = 'b'"));
  const problem = problemOf(await openShop(shop.folder).call('openHeader', { headerId }));
  expect(problem).toMatchObject({
    kind: 'storage',
    fault: 'corrupt',
    detail: expect.stringMatching(/3 primaries, not 2/),
  });
});

const frameOf = (shop: Shop) =>
  withDatabase(shop.file, (db) => db.prepare('SELECT * FROM frames').get()) as { readonly revision: number };

test('the row of the rest is written by a step that changes more than primaries, and by no other', async () => {
  const shop = openShop();
  const { headerId, edit } = await threePrimaries(shop);
  expect(frameOf(shop).revision).toBe(0);
  await edit(3, LONGER);
  expect(frameOf(shop).revision).toBe(0);
  await edit(4, { kind: 'setHeader', set: { note: 'long bay' } });
  expect(frameOf(shop).revision).toBe(5);
  await edit(5, { kind: 'movePrimary', primaryId: 'a', to: 2 });
  expect(frameOf(shop).revision).toBe(5);
  expect((await openShop(shop.folder).must('openHeader', { headerId })).header.note).toBe('long bay');
});

test('an older version of the rest, whole in itself, is damage and is said', async () => {
  const shop = openShop();
  const { headerId, edit } = await threePrimaries(shop);
  const old = frameOf(shop);
  await edit(3, { kind: 'setHeader', set: { note: 'long bay' } });
  withDatabase(shop.file, (db) =>
    db.prepare('UPDATE frames SET revision = @revision, checksum = @checksum, document = @document').run(old),
  );
  const problem = problemOf(await openShop(shop.folder).call('openHeader', { headerId }));
  expect(problem).toMatchObject({
    kind: 'storage',
    fault: 'corrupt',
    detail: expect.stringMatching(/frame.*not at 4/),
  });
});
