/** A backup of everything is one file, proven before it is done; what comes back from it is all that was there, and nothing is lost by it. */

import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Reply, ResponseOf } from '../../../electron/bridge/contract.ts';
import { outgoingFile } from '../../../electron/output/outgoing-file.ts';
import { behindTheBack, finishedHeader, shopWithFinished } from './finished-shop.ts';
import {
  addPrimary,
  headerWith,
  openShop,
  problemOf,
  type Shop,
  straight,
  temporaryFolder,
  withDatabase,
} from './shop.ts';

/** Runs work to its end as the page does; `given` is what it hands in. */
async function finished(shop: Shop, workId: string | null, given: Buffer | null = null) {
  if (workId === null) throw new Error('called off');
  const pieces: Buffer[] = [];
  const stages = new Set<string>();
  let piece: string | null = null;
  for (;;) {
    const reply: Reply<'continueWork'> = await shop.call('continueWork', { workId, piece });
    if (!reply.ok) return { problem: reply.problems[0], file: null, done: null, stages };
    const state: ResponseOf<'continueWork'> = reply.value;
    if (state.state === 'done') return { problem: null, file: Buffer.concat(pieces), done: state.done, stages };
    stages.add(state.stage);
    if (state.piece !== null) pieces.push(Buffer.from(state.piece, 'base64'));
    piece =
      given && state.stage === 'reading' ? given.subarray(state.done, state.done + 10_000).toString('base64') : null;
  }
}

const backedUp = async (shop: Shop) => finished(shop, (await shop.must('beginBackup', {})).workId);

async function proven(shop: Shop, file: Buffer) {
  return finished(shop, (await shop.must('beginRestore', { bytes: file.length })).workId, file);
}

/** All that a person would miss. */
async function content(shop: Shop) {
  const [bench, bin] = [
    await shop.must('listHeaders', { place: 'bench' }),
    await shop.must('listHeaders', { place: 'bin' }),
  ];
  const headers = await Promise.all(
    [...bench.headers, ...bin.headers].map(({ headerId }) => shop.must('openHeader', { headerId })),
  );
  const pictures = await Promise.all(headers.map(({ header }) => shop.must('listPictures', { headerId: header.id })));
  return { headers, pictures, stock: (await shop.must('listStock', {})).stock };
}

const leftOver = (shop: Shop) => readdirSync(shop.folder).filter((name) => /given|partial|restoring/.test(name));

test('what is backed up on one computer is all there on another, which keeps what it had as a backup', async () => {
  const { shop } = await shopWithFinished();
  await headerWith(shop, [addPrimary('a', [straight('s1')])], 'Open one');
  const before = await content(shop);
  const { file, done, stages } = await backedUp(shop);
  expect(done).toMatchObject({
    kind: 'backedUp',
    headers: 2,
    finished: 1,
    damaged: [],
    fileName: null,
    bytes: file?.length,
  });
  expect(stages).toContain('proving');
  const other = openShop();
  await headerWith(other, [], 'Was here');
  const read = await proven(other, file ?? Buffer.alloc(0));
  expect(read.done).toMatchObject({ kind: 'proven', headers: 2, finished: 1, damaged: [] });
  expect((await other.must('listHeaders', { place: 'bench' })).headers.map(({ name }) => name)).toEqual(['Was here']);
  const givenId = read.done?.kind === 'proven' ? read.done.givenId : '';
  expect(await other.must('restoreGiven', { givenId })).toMatchObject({ state: 'ready', notices: [] });
  expect(await content(other)).toEqual(before);
  const [aside] = (await other.must('listBackups', {})).backups;
  expect(aside?.kind).toBe('setAside');
  await other.must('restoreBackup', { name: aside?.name ?? '' });
  expect((await other.must('listHeaders', { place: 'bench' })).headers.map(({ name }) => name)).toEqual(['Was here']);
  expect([leftOver(shop), leftOver(other)]).toEqual([[], []]);
});

test('a host that asks for a place has the file there whole, and nothing of that name before', async () => {
  const folder = temporaryFolder();
  const path = join(folder, 'everything.sqlite');
  const shop = openShop(undefined, { openFile: async () => ({ file: outgoingFile(path) }) });
  await headerWith(shop, [addPrimary('a')], 'Kept');
  writeFileSync(path, 'the backup of last week');
  const { workId } = await shop.must('beginBackup', {});
  await shop.must('continueWork', { workId: workId ?? '', piece: null });
  expect(readFileSync(path, 'utf8')).toBe('the backup of last week');
  const { done } = await finished(shop, workId);
  expect(done).toMatchObject({ kind: 'backedUp', headers: 1, fileName: 'everything.sqlite' });
  expect(readdirSync(folder)).toEqual(['everything.sqlite']);
  expect((await proven(openShop(), readFileSync(path))).done).toMatchObject({ kind: 'proven', headers: 1 });
});

test('called off where it should go, nothing is begun', async () => {
  const shop = openShop(undefined, { openFile: async () => null });
  await finishedHeader(shop, 'Finished four');
  expect(await shop.must('beginBackup', {})).toEqual({ workId: null });
  expect(await shop.must('beginExport', { headerIds: null })).toEqual({ workId: null });
});

describe('stopped', () => {
  test.each([0, 1, 2])('after %i pieces a backup leaves nothing behind, and the next one is whole', async (pieces) => {
    const folder = temporaryFolder();
    const shop = openShop(undefined, { openFile: async () => ({ file: outgoingFile(join(folder, 'all.sqlite')) }) });
    await headerWith(shop, [addPrimary('a')]);
    const { workId } = await shop.must('beginBackup', {});
    for (let piece = 0; piece < pieces; piece += 1)
      await shop.call('continueWork', { workId: workId ?? '', piece: null });
    await shop.must('stopWork', { workId: workId ?? '' });
    const left = readdirSync(folder);
    // A small database may be backed up by then.
    if (left.length > 0) expect(left).toEqual(['all.sqlite']);
    else
      expect(problemOf(await shop.call('continueWork', { workId: workId ?? '', piece: null }))?.kind).toBe('workGone');
    expect((await backedUp(shop)).done).toMatchObject({ headers: 1 });
  });

  test('a file that is handed in half is forgotten, and everything is as it was', async () => {
    const { shop } = await shopWithFinished();
    const { file } = await backedUp(shop);
    const before = await content(shop);
    const { workId } = await shop.must('beginRestore', { bytes: file?.length ?? 0 });
    await shop.must('continueWork', { workId, piece: null });
    await shop.must('continueWork', { workId, piece: file?.subarray(0, 5000).toString('base64') ?? '' });
    await shop.must('stopWork', { workId });
    expect(leftOver(shop)).toEqual([]);
    expect(await content(shop)).toEqual(before);
  });

  test('one that was proven and is not wanted after all is taken away', async () => {
    const { shop } = await shopWithFinished();
    const { done } = await proven(shop, (await backedUp(shop)).file ?? Buffer.alloc(0));
    const givenId = done?.kind === 'proven' ? done.givenId : '';
    expect(leftOver(shop)).toHaveLength(1);
    await shop.must('dropGiven', { givenId });
    expect(leftOver(shop)).toEqual([]);
    expect(problemOf(await shop.call('restoreGiven', { givenId }))?.kind).toBe('workGone');
  });
});

describe('a file that is not one of ours, whole', () => {
  test.each([
    ['text', () => Buffer.from('no database at all, '.repeat(500)), 'corrupt'],
    ['half a backup', (file: Buffer) => file.subarray(0, Math.floor(file.length / 8192) * 4096), 'corrupt'],
    ['a database of something else', () => strangersDatabase(7), 'notOurs'],
    [
      'one with a trigger more',
      (file: Buffer) => withMore(file, `CREATE TRIGGER more AFTER INSERT ON settings ${ACT}`),
      'corrupt',
    ],
    ['one with a view more', (file: Buffer) => withMore(file, 'CREATE VIEW more AS SELECT * FROM journal'), 'corrupt'],
    [
      'one with a table of an odd name',
      (file: Buffer) => withMore(file, 'CREATE TABLE "it\'s ""a b""); (" (x)'),
      'corrupt',
    ],
    ['one of a newer version', () => strangersDatabase(0x4576726e), 'newerVersion'],
  ] as const)('%s is refused, and everything is as it was', async (_what, made, fault) => {
    const { shop } = await shopWithFinished();
    const before = await content(shop);
    const { problem } = await proven(shop, made((await backedUp(shop)).file ?? Buffer.alloc(0)));
    expect(problem).toMatchObject({ kind: 'storage', fault });
    expect(leftOver(shop)).toEqual([]);
    expect(await content(shop)).toEqual(before);
  });

  test('what is altered in it is named before it takes the place of anything', async () => {
    const { shop, headerId } = await shopWithFinished();
    behindTheBack(shop.file, (db) => db.exec("UPDATE pictures SET caption = 'x'"));
    const { file, done } = await backedUp(shop);
    const damaged = [{ name: 'Bench four', problem: { kind: 'alteredHeader', headerId } }];
    expect(done).toMatchObject({ kind: 'backedUp', damaged });
    expect((await proven(openShop(), file ?? Buffer.alloc(0))).done).toMatchObject({ kind: 'proven', damaged });
  });
});

const ACT = 'BEGIN DELETE FROM drafts; END';

/** A backup with something in it that is not of this program's making. */
function withMore(backup: Buffer, sql: string): Buffer {
  const file = join(temporaryFolder(), 'more.sqlite');
  writeFileSync(file, backup);
  withDatabase(file, (db) => db.exec(sql));
  return readFileSync(file);
}

/** @param applicationId 0x4576726e is this program's own */
function strangersDatabase(applicationId: number): Buffer {
  const file = join(temporaryFolder(), 'other.sqlite');
  withDatabase(file, (db) =>
    db.exec(`CREATE TABLE songs (title TEXT); PRAGMA application_id = ${applicationId}; PRAGMA user_version = 999`),
  );
  return readFileSync(file);
}

describe('two windows at once', () => {
  test('a backup whose database is replaced by another window ends, and leaves nothing behind', async () => {
    const { shop } = await shopWithFinished();
    const { file } = await backedUp(shop);
    const { done } = await proven(shop, file ?? Buffer.alloc(0));
    const { workId } = await shop.must('beginBackup', {});
    await shop.must('restoreGiven', { givenId: done?.kind === 'proven' ? done.givenId : '' });
    expect((await finished(shop, workId)).problem).toEqual({ kind: 'workGone' });
    expect(leftOver(shop)).toEqual([]);
    expect((await backedUp(shop)).done).toMatchObject({ kind: 'backedUp', headers: 1 });
  });

  test('asked twice to restore the same file, it is restored once and the second is told', async () => {
    const { shop } = await shopWithFinished();
    const { done } = await proven(shop, (await backedUp(shop)).file ?? Buffer.alloc(0));
    const givenId = done?.kind === 'proven' ? done.givenId : '';
    const both = await Promise.all([shop.call('restoreGiven', { givenId }), shop.call('restoreGiven', { givenId })]);
    expect(both.map(({ ok }) => ok)).toEqual([true, false]);
    expect(both.flatMap((reply) => (reply.ok ? [] : reply.problems))).toEqual([{ kind: 'workGone' }]);
  });
});

test('an empty piece ends the taking in, for nothing would ever come of more of them', async () => {
  const shop = openShop();
  const { workId } = await shop.must('beginRestore', { bytes: 10 });
  await shop.must('continueWork', { workId, piece: null });
  expect(problemOf(await shop.call('continueWork', { workId, piece: '' }))?.kind).toBe('invalidRequest');
  expect(leftOver(shop)).toEqual([]);
});

test('a program that cannot open its database is brought back from such a file', async () => {
  const { shop } = await shopWithFinished();
  const before = await content(shop);
  const { file } = await backedUp(shop);
  await shop.close();
  const broken = openShop();
  writeFileSync(broken.file, 'not a database at all, '.repeat(500));
  expect(await broken.must('start', {})).toMatchObject({ state: 'cannotOpen' });
  const { done } = await proven(broken, file ?? Buffer.alloc(0));
  const givenId = done?.kind === 'proven' ? done.givenId : '';
  expect(await broken.must('restoreGiven', { givenId })).toMatchObject({ state: 'ready' });
  expect(await content(broken)).toEqual(before);
  expect(existsSync(broken.file)).toBe(true);
});
