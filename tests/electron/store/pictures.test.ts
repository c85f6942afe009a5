/** Pictures lie beside their header: kept in order, at most twelve, changed without a step, and copied with nothing. */

import { describe, expect, test } from 'vitest';
import { behindTheBack, jpegBytes, pictureOf } from './finished-shop.ts';
import { headerWith, openShop, problemOf, type Shop, withDatabase } from './shop.ts';

async function shopWithPictures(...captions: readonly string[]) {
  const shop = openShop();
  const { header } = await headerWith(shop, []);
  for (const [at, caption] of captions.entries())
    await shop.must('addPicture', { headerId: header.id, picture: pictureOf(jpegBytes(at + 1), caption) });
  return { shop, headerId: header.id };
}

async function captions(shop: Shop, headerId: string): Promise<readonly string[]> {
  return (await shop.must('listPictures', { headerId })).pictures.map(({ caption }) => caption);
}

const idOf = async (shop: Shop, headerId: string, at: number) =>
  (await shop.must('listPictures', { headerId })).pictures[at]?.id ?? '';

test('a picture comes back as it was put in, after a restart too', async () => {
  const { shop, headerId } = await shopWithPictures('Flange');
  const pictureId = await idOf(shop, headerId, 0);
  const expected = { content: jpegBytes(1).toString('base64') };
  expect(await shop.must('readPicture', { headerId, pictureId })).toEqual(expected);
  await shop.close();
  const again = openShop(shop.folder);
  expect(await again.must('readPicture', { headerId, pictureId })).toEqual(expected);
  expect(await again.must('start', {})).toMatchObject({ notices: [] });
});

test('they make no step: revision, undo and the journal stay as they were', async () => {
  const { shop, headerId } = await shopWithPictures('a', 'b');
  await shop.must('changePicture', { headerId, pictureId: await idOf(shop, headerId, 0), change: { kind: 'remove' } });
  const { revision, undo } = await shop.must('openHeader', { headerId });
  expect([revision, undo]).toEqual([0, []]);
  const longest = withDatabase(shop.file, (db) =>
    db.prepare<[], number>('SELECT max(length(edit) + length(inverse)) FROM journal').pluck().get(),
  );
  expect(longest).toBeLessThan(20);
});

test.each([
  [0, 2, ['b', 'c', 'a']],
  [2, 0, ['c', 'a', 'b']],
  [1, 1, ['a', 'b', 'c']],
  [0, 11, ['b', 'c', 'a']],
])('moved from %i to %i', async (from, to, expected) => {
  const { shop, headerId } = await shopWithPictures('a', 'b', 'c');
  const pictureId = await idOf(shop, headerId, from);
  await shop.must('changePicture', { headerId, pictureId, change: { kind: 'move', to } });
  expect(await captions(shop, headerId)).toEqual(expected);
});

test('renamed and removed, the others stay in their order', async () => {
  const { shop, headerId } = await shopWithPictures('a', 'b', 'c');
  const second = await idOf(shop, headerId, 1);
  await shop.must('changePicture', { headerId, pictureId: second, change: { kind: 'caption', caption: 'B' } });
  const first = await idOf(shop, headerId, 0);
  await shop.must('changePicture', { headerId, pictureId: first, change: { kind: 'remove' } });
  expect(await captions(shop, headerId)).toEqual(['B', 'c']);
  const gone = await shop.call('changePicture', { headerId, pictureId: first, change: { kind: 'remove' } });
  expect(problemOf(gone)).toEqual({ kind: 'notFound', what: 'picture', id: first });
});

describe('refused', () => {
  test('the thirteenth, by the program and by the database', async () => {
    const { shop, headerId } = await shopWithPictures(...'abcdefghijkl');
    const more = await shop.call('addPicture', { headerId, picture: pictureOf(jpegBytes(13)) });
    expect(problemOf(more)).toMatchObject({ kind: 'tooMany', limit: 12 });
    withDatabase(shop.file, (db) =>
      expect(() =>
        db.exec(
          "INSERT INTO pictures SELECT header_id, 'more', 13, caption, media_type, width_px, height_px, sha256, checksum FROM pictures LIMIT 1",
        ),
      ).toThrow(/at most 12/),
    );
  });

  test('a file that is no picture, one of another kind than it says, and one that is too large', async () => {
    const { shop, headerId } = await shopWithPictures();
    for (const [bytes, change] of [
      [Buffer.from('no picture at all'), {}],
      [jpegBytes(1), { mediaType: 'image/png' as const }],
      [jpegBytes(1, 700_001), {}],
      [jpegBytes(1), { widthPx: 1601 }],
    ] as const) {
      const reply = await shop.call('addPicture', { headerId, picture: { ...pictureOf(bytes), ...change } });
      expect(problemOf(reply)?.kind).toBe('invalidRequest');
    }
    await shop.must('addPicture', { headerId, picture: pictureOf(jpegBytes(1, 700_000)) });
  });

  test('of a header that is not there', async () => {
    const reply = await openShop().call('addPicture', { headerId: 'nobody', picture: pictureOf(jpegBytes(1)) });
    expect(problemOf(reply)).toMatchObject({ kind: 'notFound', what: 'header' });
  });
});

test('a copy of a header has no pictures, and a header in the bin keeps its own', async () => {
  const { shop, headerId } = await shopWithPictures('a');
  const copy = await shop.must('duplicateHeader', { headerId, name: 'Copy', as: 'same' });
  expect(await captions(shop, copy.header.id)).toEqual([]);
  await shop.must('binHeader', { headerId });
  await shop.must('restoreHeader', { headerId });
  expect(await captions(shop, headerId)).toEqual(['a']);
});

test('one that is damaged on disk is said to be, and the others are shown', async () => {
  const { shop, headerId } = await shopWithPictures('a', 'b');
  const [first, second] = [await idOf(shop, headerId, 0), await idOf(shop, headerId, 1)];
  behindTheBack(shop.file, (db) =>
    db.prepare('UPDATE picture_bytes SET bytes = zeroblob(2000) WHERE id = ?').run(first),
  );
  expect(await shop.must('readPicture', { headerId, pictureId: first })).toEqual({ content: null });
  expect(await shop.must('readPicture', { headerId, pictureId: second })).toEqual({
    content: jpegBytes(2).toString('base64'),
  });
});

test('a backup holds them', async () => {
  const { shop, headerId } = await shopWithPictures();
  await shop.must('makeBackup', {});
  await shop.must('addPicture', { headerId, picture: pictureOf(jpegBytes(1)) });
  const { name } = await shop.must('makeBackup', {});
  await shop.must('restoreBackup', { name });
  expect(await captions(shop, headerId)).toEqual(['']);
});
