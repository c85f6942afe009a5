/** The rows of a header: a step writes those that it changes, and rows that do not belong together are never shown. */

import { expect, test } from 'vitest';
import type { Edit } from '../../../core/edits/edit.ts';
import { DamagedRow } from '../../../electron/store/file/faults.ts';
import { revisionsIn } from '../../../electron/store/header/row-revisions.ts';
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
  withoutTrigger,
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
  expect([revision, revisionsOf(shop)]).toEqual([3, { a: 1, b: 2, c: 3 }]);
  const edit = async (baseRevision: number, ...edits: readonly Edit[]) =>
    await shop.must('commitSteps', { headerId: header.id, baseRevision, steps: edits.map(doStep) });
  return { headerId: header.id, edit };
}

const LONGER: Edit = { kind: 'replacePiece', primaryId: 'b', piece: straight('b1', 3) };

test('only the rows of primaries that a step changes are written', async () => {
  const shop = openShop();
  const { headerId, edit } = await threePrimaries(shop);
  await edit(3, LONGER);
  expect(revisionsOf(shop)).toEqual({ a: 1, b: 4, c: 3 });
  await edit(4, { kind: 'setHeader', set: { note: 'x' } }, { kind: 'movePrimary', primaryId: 'a', to: 0 });
  expect(revisionsOf(shop)).toEqual({ a: 1, b: 4, c: 3 });
  await edit(6, { kind: 'removePrimary', primaryId: 'c' });
  expect(revisionsOf(shop)).toEqual({ a: 1, b: 4 });
  await shop.must('commitSteps', { headerId, baseRevision: 7, steps: [{ action: 'undo', stepId: stepId() }] });
  expect(revisionsOf(shop)).toEqual({ a: 1, b: 4, c: 8 });
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

const namesInOrder = async (shop: Shop) =>
  (await shop.must('listHeaders', { place: 'bench' })).headers.map(({ name }) => name);

test('a header comes before one that was made after its last change', async () => {
  const shop = openShop();
  const { edit } = await threePrimaries(shop);
  await headerWith(shop, [], 'Made later');
  expect(await namesInOrder(shop)).toEqual(['Made later', 'Bench four']);
  await edit(3, LONGER);
  expect(await namesInOrder(shop)).toEqual(['Bench four', 'Made later']);
});

test('a header comes before one that another process has changed since', async () => {
  const shop = openShop();
  const other = await headerWith(shop, [], 'Changed elsewhere');
  const { edit } = await threePrimaries(shop);
  const steps = [doStep(addPrimary('z'))];
  await openShop(shop.folder).must('commitSteps', { headerId: other.header.id, baseRevision: 0, steps });
  expect(await namesInOrder(shop)).toEqual(['Changed elsewhere', 'Bench four']);
  await edit(3, LONGER);
  expect(await namesInOrder(shop)).toEqual(['Bench four', 'Changed elsewhere']);
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

interface OwnRow {
  readonly revision: number;
  readonly piece_count: number;
}
const ownRowOf = (shop: Shop) => withDatabase(shop.file, (db) => db.prepare('SELECT * FROM headers').get()) as OwnRow;

test('the row for lists is written by a step that changes what only it holds, and by no other', async () => {
  const shop = openShop();
  const { edit } = await threePrimaries(shop);
  const writtenBy = async (baseRevision: number, step: Edit) => {
    await edit(baseRevision, step);
    return ownRowOf(shop).revision;
  };
  expect(await writtenBy(3, LONGER)).toBe(3);
  expect(await writtenBy(4, { kind: 'setHeader', set: { note: 'long bay' } })).toBe(3);
  expect(await writtenBy(5, { kind: 'setHeader', set: { name: 'Six' } })).toBe(6);
  expect(await writtenBy(6, { kind: 'movePrimary', primaryId: 'a', to: 0 })).toBe(7);
  expect(await writtenBy(7, { kind: 'removePrimary', primaryId: 'c' })).toBe(8);
  expect(await writtenBy(8, addPrimary('d'))).toBe(9);
  expect(await writtenBy(9, LONGER)).toBe(9);
  expect(await writtenBy(10, { kind: 'finishHeader' })).toBe(11);
});

test('lists show a header as its newest step left it', async () => {
  const shop = openShop();
  const { headerId, edit } = await threePrimaries(shop);
  shop.setClock('2026-05-06T07:08:09.010Z');
  await edit(3, { kind: 'addPiece', primaryId: 'b', piece: straight('b2'), at: 1 });
  expect(ownRowOf(shop)).toMatchObject({ revision: 3, piece_count: 3 });
  const shown = { headerId, revision: 4, primaryCount: 3, pieceCount: 4, changedAt: '2026-05-06T07:08:09.010Z' };
  for (const one of [shop, openShop(shop.folder)]) {
    expect((await one.must('listHeaders', { place: 'bench' })).headers).toMatchObject([shown]);
    expect(await one.must('readRevision', { headerId })).toEqual({ revision: 4, state: 'open' });
  }
});

test('an older version of the row for lists, whole in itself, is damage and is said', async () => {
  const shop = openShop();
  const { headerId, edit } = await threePrimaries(shop);
  const old = ownRowOf(shop);
  await edit(3, { kind: 'setHeader', set: { name: 'Six' } });
  withoutTrigger(shop.file, 'headers_update_in_step', (db) =>
    db.prepare('UPDATE headers SET name = @name, revision = @revision, checksum = @checksum').run(old),
  );
  expect(problemOf(await openShop(shop.folder).call('openHeader', { headerId }))).toMatchObject({
    kind: 'storage',
    fault: 'corrupt',
    detail: expect.stringMatching(/row of header.*not at 4/),
  });
});

test('a newest step that is gone is damage and is said', async () => {
  const shop = openShop();
  const { headerId, edit } = await threePrimaries(shop);
  await edit(3, LONGER);
  withoutTrigger(shop.file, 'edits_no_delete', (db) => db.exec('DELETE FROM edits WHERE revision = 4'));
  expect(problemOf(await openShop(shop.folder).call('openHeader', { headerId }))).toMatchObject({
    kind: 'storage',
    fault: 'corrupt',
    detail: expect.stringMatching(/primary b.*not at 2/),
  });
});

test.each(['[3,0,1]', '[3,0,1,2,3]', '[3]', '[]', '[3,0,1,-2]', '[3,0,1,0.5]', '{}', ''])(
  'a step that names the rows of two primaries as %s is damaged',
  (cell) => {
    expect(() => revisionsIn(cell, ['a', 'b'], 'the rows')).toThrow(DamagedRow);
  },
);
