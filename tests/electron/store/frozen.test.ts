/** Finishing freezes document, figures, plans, readings and pictures under one checksum, and whatever is altered of them since is told. */

import type Database from 'better-sqlite3';
import { describe, expect, test } from 'vitest';
import { canonicalJson } from '../../../electron/store/finished/record.ts';
import { digestOf } from '../../trust/canonical.ts';
import {
  behindTheBack,
  exported,
  finishedHeader,
  jpegBytes,
  mendChecksums,
  pictureOf,
  sha256,
  shopWithFinished,
} from './finished-shop.ts';
import { headerWith, openShop, problemOf, storedText, withDatabase } from './shop.ts';

describe('the text that the checksum is taken of', () => {
  test('is canonical as the examples of RFC 8785 are (sections 3.2.2 and 3.2.3)', () => {
    const given = JSON.parse(String.raw`{
      "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
      "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
      "literals": [null, true, false]
    }`);
    expect(canonicalJson(given)).toBe(
      String.raw`{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}`,
    );
    const names = ['\u20ac', '\r', '\ufb33', '1', '\u{1f600}', '\u0080', '\u00f6'];
    const text = canonicalJson(Object.fromEntries(names.map((name) => [name, 0])));
    expect([...text.matchAll(/"((?:\\.|[^"])*)"/g)].map(([name]) => JSON.parse(name))).toEqual([
      '\r',
      '1',
      '\u0080',
      '\u00f6',
      '\u20ac',
      '\u{1f600}',
      '\ufb33',
    ]);
  });

  test('holds all that is frozen, and the checksum is its SHA-256', async () => {
    const { shop, headerId } = await shopWithFinished();
    const { text } = await exported(shop);
    const { checksum, id, pictures, ...rest } = JSON.parse(text);
    expect([rest.format, rest.version, id]).toEqual(['evenrun-finished', 1, headerId]);
    const facts = pictures.map(({ content: _, ...one }: { content: string }) => one);
    expect(checksum).toBe(digestOf({ ...rest, pictures: facts }));
    const { header } = await shop.must('openHeader', { headerId });
    expect({ id, ...rest.header }).toEqual(header);
    expect(rest.header.primaries[0].measured).toHaveLength(1);
    expect(rest.figures).toMatchObject({ name: header.name, finishedAt: expect.stringMatching(/^2026-03-01T/) });
    const { plans } = await shop.must('listCutPlans', { headerId });
    expect(rest.plans).toEqual(plans.map(({ step: _, ...plan }) => plan));
    expect(plans).toHaveLength(1);
    expect(facts).toEqual([
      { caption: 'Flange side', mediaType: 'image/jpeg', widthPx: 1600, heightPx: 900, sha256: sha256(jpegBytes(1)) },
      { caption: '', mediaType: 'image/jpeg', widthPx: 1600, heightPx: 900, sha256: sha256(jpegBytes(2)) },
    ]);
    expect(pictures.map(({ content }: { content: string }) => content)).toEqual(
      [1, 2].map((seed) => jpegBytes(seed).toString('base64')),
    );
  });
});

test('what is finished is told to be so, whole and beside an altered one', async () => {
  const { shop, headerId } = await shopWithFinished();
  const other = await finishedHeader(shop, 'Other');
  expect((await shop.must('openHeader', { headerId })).damage).toBeNull();
  expect(await shop.must('checkFinished', { headerIds: [headerId, other] })).toEqual({ altered: [] });
});

test('a copy of an altered one says so in its note, one of a sound one says nothing', async () => {
  const { shop, headerId } = await shopWithFinished();
  const other = await finishedHeader(shop, 'Other');
  behindTheBack(shop.file, (db) => db.prepare("UPDATE pictures SET caption = 'x' WHERE header_id = ?").run(headerId));
  const noteOf = async (of: string) =>
    (await shop.must('duplicateHeader', { headerId: of, name: 'Next', as: 'again' })).header.note;
  expect(await noteOf(headerId)).toMatch(
    /^Copied from ".*", which was no longer as it was finished\. Check every figure/,
  );
  expect(await noteOf(other)).toBe('');
});

test.each([
  "UPDATE pictures SET caption = 'x'",
  'DELETE FROM pictures',
  'INSERT OR REPLACE INTO pictures SELECT * FROM pictures',
  "INSERT INTO pictures SELECT header_id, 'third', 3, caption, media_type, width_px, height_px, sha256, checksum FROM pictures LIMIT 1",
  'UPDATE picture_bytes SET bytes = zeroblob(9)',
  'DELETE FROM picture_bytes',
  'INSERT OR REPLACE INTO picture_bytes SELECT * FROM picture_bytes',
])('the database refuses: %s', async (sql) => {
  const { shop } = await shopWithFinished();
  withDatabase(shop.file, (db) => expect(() => db.exec(sql)).toThrow(/finished header are kept|at most 12/));
});

test('nor does a picture of an open header become one of a finished header, or take its place', async () => {
  const { shop, headerId } = await shopWithFinished();
  const { header } = await headerWith(shop, []);
  await shop.must('addPicture', { headerId: header.id, picture: pictureOf(jpegBytes(3)) });
  withDatabase(shop.file, (db) => {
    db.pragma('foreign_keys = OFF');
    for (const table of ['pictures', 'picture_bytes'])
      expect(() =>
        db.prepare(`UPDATE OR REPLACE ${table} SET header_id = ? WHERE header_id = ?`).run(headerId, header.id),
      ).toThrow(/finished header are kept/);
  });
});

test('by the program a picture of a finished header is neither added nor changed', async () => {
  const { shop, headerId } = await shopWithFinished();
  const { pictures } = await shop.must('listPictures', { headerId });
  const add = await shop.call('addPicture', { headerId, picture: pictureOf(jpegBytes(3)) });
  expect(problemOf(add)?.kind).toBe('finished');
  for (const change of [{ kind: 'caption', caption: 'x' }, { kind: 'move', to: 1 }, { kind: 'remove' }] as const) {
    const reply = await shop.call('changePicture', { headerId, pictureId: pictures[0]?.id ?? '', change });
    expect(problemOf(reply)?.kind).toBe('finished');
  }
});

/** One place of the stored record, and what another hand makes of it. */
type Altering = readonly [what: string, table: 'snapshots' | 'archive' | 'pictures' | 'picture_bytes', sql: string];

const LAST_SNAPSHOT = 'revision = (SELECT max(revision) FROM snapshots AS s WHERE s.header_id = snapshots.header_id)';

const ALTERED: readonly Altering[] = [
  [
    'a length of the document',
    'snapshots',
    `UPDATE snapshots SET document = replace(document, '"value":20', '"value":21') WHERE ${LAST_SNAPSHOT} AND header_id = @id`,
  ],
  [
    'a reading',
    'snapshots',
    `UPDATE snapshots SET document = replace(document, '46.25', '46.75') WHERE ${LAST_SNAPSHOT} AND header_id = @id`,
  ],
  [
    'the state of the document',
    'snapshots',
    `UPDATE snapshots SET document = replace(document, '"finished"', '"open"') WHERE ${LAST_SNAPSHOT} AND header_id = @id`,
  ],
  ['a figure', 'archive', `UPDATE archive SET figures = json_set(figures, '$.spreadMm', 0.125) WHERE header_id = @id`],
  [
    'the day of finishing',
    'archive',
    `UPDATE archive SET figures = replace(figures, '2026-03-01', '2025-03-01') WHERE header_id = @id`,
  ],
  [
    'the plan',
    'archive',
    `UPDATE archive SET plans = json_set(plans, '$[0].kept.pieces[0].pieceNumber', 9) WHERE header_id = @id`,
  ],
  ['that there was a plan', 'archive', `UPDATE archive SET plans = '[]' WHERE header_id = @id`],
  [
    'the checksum',
    'archive',
    `UPDATE archive SET seal = iif(seal LIKE 'f%', 'e', 'f') || substr(seal, 2) WHERE header_id = @id`,
  ],
  ['a caption', 'pictures', `UPDATE pictures SET caption = 'Collector side' WHERE header_id = @id AND place = 1`],
  ['the order of pictures', 'pictures', `UPDATE pictures SET place = 3 - place WHERE header_id = @id`],
  [
    'the kind of a picture',
    'pictures',
    `UPDATE pictures SET media_type = 'image/png' WHERE header_id = @id AND place = 1`,
  ],
  ['the size of a picture', 'pictures', `UPDATE pictures SET width_px = 900 WHERE header_id = @id AND place = 2`],
  [
    'the file of a picture',
    'picture_bytes',
    `UPDATE picture_bytes SET bytes = zeroblob(length(bytes)) WHERE header_id = @id`,
  ],
  ['that there is a file', 'picture_bytes', `DELETE FROM picture_bytes WHERE header_id = @id`],
  ['that there are pictures', 'pictures', `DELETE FROM pictures WHERE header_id = @id`],
  ['that it is in the archive', 'archive', `DELETE FROM archive WHERE header_id = @id`],
];

describe.each([
  ['as a bad disk does it', false],
  ['with the row made to match', true],
] as const)('altered %s', (_how, isMended) => {
  test.each(ALTERED)('%s: told on opening and in the list, and left out of an export', async (_what, table, sql) => {
    const { shop, headerId } = await shopWithFinished();
    const other = await finishedHeader(shop, 'Other');
    let changes = 0;
    behindTheBack(shop.file, (db: Database.Database) => {
      ({ changes } = db.prepare(sql).run({ id: headerId }));
      if (isMended) mendChecksums(db, table);
    });
    expect(changes).toBeGreaterThan(0);
    const { damage } = await shop.must('openHeader', { headerId });
    expect(damage).toMatchObject({ kind: 'alteredHeader', headerId });
    expect(await shop.must('checkFinished', { headerIds: [headerId, other] })).toEqual({
      altered: [{ headerId, problem: damage }],
    });
    const { text, done } = await exported(shop, [headerId, other]);
    expect(JSON.parse(text).header.name).toBe('Other');
    expect(done).toMatchObject({ headers: 1, leftOut: [{ problem: damage }] });
  });
});

test('every byte of the document, the figures and the plans counts', async () => {
  const { shop, headerId } = await shopWithFinished();
  const whole = withDatabase(shop.file, (db) => storedText(db, headerId));
  // One letter in each of some fifty places, spread over the text; the row is made to match.
  const step = Math.ceil(whole.length / 50);
  for (let at = 3; at < whole.length; at += step) {
    const other = `${whole.slice(0, at)}${whole[at] === '7' ? '8' : '7'}${whole.slice(at + 1)}`;
    if (!isJson(other)) continue;
    const put = (text: string) =>
      behindTheBack(shop.file, (db) => {
        db.prepare(`UPDATE snapshots SET document = ? WHERE ${LAST_SNAPSHOT} AND header_id = ?`).run(text, headerId);
        mendChecksums(db, 'snapshots');
      });
    put(other);
    const { altered } = await shop.must('checkFinished', { headerIds: [headerId] });
    expect(altered, other.slice(Math.max(0, at - 20), at + 20)).toHaveLength(1);
    put(whole);
  }
  expect(await shop.must('checkFinished', { headerIds: [headerId] })).toEqual({ altered: [] });
});

function isJson(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}

test('a finished header is as sound after the program was started again', async () => {
  const { shop, headerId } = await shopWithFinished();
  await shop.close();
  const again = openShop(shop.folder);
  expect(await again.must('start', {})).toMatchObject({ state: 'ready', notices: [] });
  expect((await again.must('openHeader', { headerId })).damage).toBeNull();
});
