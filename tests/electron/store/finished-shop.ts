/** Finished headers with all that finishing freezes, and a hand that alters them behind the program's back. */

import { createHash } from 'node:crypto';
import type Database from 'better-sqlite3';
import { type Cell, columnsOf, type Row, type Table } from '../../../electron/store/rows/columns.ts';
import { cellsOf, checksumOf } from '../../../electron/store/rows/row-table.ts';
import { seededRandom } from '../../trust/seeded-random.ts';
import { planRequest, shopWithPlan } from './planned-shop.ts';
import { addPrimary, doStep, headerWith, type Shop, straight, withDatabase } from './shop.ts';

/** Bytes that begin as a JPEG does, and are no picture after that: nothing in the store looks further. */
export function jpegBytes(seed: number, length = 2_000): Buffer {
  const random = seededRandom(seed);
  return Buffer.from([0xff, 0xd8, 0xff, ...Array.from({ length: length - 3 }, () => Math.floor(random() * 256))]);
}

export const pictureOf = (bytes: Buffer, caption = '') => ({
  caption,
  mediaType: 'image/jpeg' as const,
  widthPx: 1600,
  heightPx: 900,
  content: bytes.toString('base64'),
});

export async function finish(shop: Shop, headerId: string): Promise<void> {
  const { revision } = await shop.must('readRevision', { headerId });
  await shop.must('commitSteps', { headerId, baseRevision: revision, steps: [doStep({ kind: 'finishHeader' })] });
}

/** A header with a cut plan that was carried out, a reading, two pictures, and finished. */
export async function shopWithFinished() {
  const { shop, headerId } = await shopWithPlan();
  await shop.must('carryOutCutPlan', await planRequest(shop, headerId));
  const { header, revision } = await shop.must('openHeader', { headerId });
  const inch = (value: number) => ({ value, unit: 'in' as const });
  const measured = [{ kind: 'centreline' as const, length: inch(46.25), within: inch(0.125) }];
  await shop.must('commitSteps', {
    headerId,
    baseRevision: revision,
    steps: [doStep({ kind: 'setMeasured', primaryId: header.primaries[0]?.id ?? '', measured })],
  });
  for (const [seed, caption] of [
    [1, 'Flange side'],
    [2, ''],
  ] as const)
    await shop.must('addPicture', { headerId, picture: pictureOf(jpegBytes(seed), caption) });
  await finish(shop, headerId);
  return { shop, headerId };
}

/** A small finished header beside others. */
export async function finishedHeader(shop: Shop, name: string): Promise<string> {
  const { header } = await headerWith(shop, [addPrimary('a', [straight('s1', 10)])], name);
  await finish(shop, header.id);
  return header.id;
}

/** Plain SQL with every trigger of the file out of the way, which stands again afterwards. */
export function behindTheBack(file: string, act: (db: Database.Database) => void): void {
  withDatabase(file, (db) => {
    const triggers = db
      .prepare<[], { name: string; sql: string }>("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'")
      .all();
    db.pragma('foreign_keys = OFF');
    for (const { name } of triggers) db.exec(`DROP TRIGGER ${name}`);
    act(db);
    for (const { sql } of triggers) db.exec(sql);
  });
}

/** Gives every row of a table the checksum that fits what stands in it now. */
export function mendChecksums<Name extends Table>(db: Database.Database, table: Name): void {
  const key = table === 'pictures' || table === 'picture_bytes' ? ['header_id', 'id'] : ['header_id'];
  const more = table === 'snapshots' ? [...key, 'revision'] : key;
  const put = db.prepare(
    `UPDATE ${table} SET checksum = ? WHERE ${more.map((column) => `${column} IS ?`).join(' AND ')}`,
  );
  const rows = db.prepare<[], Row<Name>>(`SELECT ${columnsOf(table).join(', ')} FROM ${table}`).all();
  for (const row of rows) {
    const cells = more.map((column) => (row as Readonly<Record<string, Cell>>)[column]);
    put.run(checksumOf(table, cellsOf(table, row)), ...cells);
  }
}

/** All pieces of an export as the page gets them, and what came of it. */
export async function exported(shop: Shop, headerIds: string[] | null = null) {
  const { workId } = await shop.must('beginExport', { headerIds });
  if (workId === null) throw new Error('called off');
  const pieces: Buffer[] = [];
  for (;;) {
    const state = await shop.must('continueWork', { workId, piece: null });
    if (state.state === 'done') return { text: Buffer.concat(pieces).toString('utf8'), done: state.done };
    if (state.piece !== null) pieces.push(Buffer.from(state.piece, 'base64'));
  }
}

export function numbered(text: string) {
  return text.split('\n').flatMap((line, at) => (line === '' ? [] : [{ line: at + 1, text: line }]));
}

export const sha256 = (content: string | Uint8Array) => createHash('sha256').update(content).digest('hex');
