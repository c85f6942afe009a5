/** A request that is sent again is done once, whatever became of its first answer: lost, or refused by a disk that kept it all the same. */

import Database from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { newHeader } from '../../../core/header/new-header.ts';
import { NO_GOALS } from '../../../core/stock/plan/cut-plan.ts';
import { DEFAULT_SAW } from '../../../core/stock/plan/from-shelf.ts';
import type { AskedOf, OnceCall } from '../../../electron/bridge/contract.ts';
import { adding } from '../../shelf-changes.ts';
import { jpegBytes, pictureOf } from './finished-shop.ts';
import { addPrimary, doStep, headerWith, openShop, problemOf, type Shop, stockStraight } from './shop.ts';

const straight = stockStraight('s1', 'mild steel');

const requestId = 'the-same-request';

/** When set, the next commit reaches the disk and is said to have failed, as a sync may. */
const disk = { keepsAndRefuses: false };
const { prepare } = Database.prototype;

beforeAll(() => {
  Database.prototype.prepare = function watched(this: Database.Database, sql: string) {
    const statement = prepare.call(this, sql) as Database.Statement<[]>;
    if (sql !== 'COMMIT') return statement;
    const run = () => {
      const done = statement.run();
      if (!disk.keepsAndRefuses) return done;
      disk.keepsAndRefuses = false;
      throw new Database.SqliteError('disk I/O error', 'SQLITE_IOERR_FSYNC');
    };
    return { run };
  } as typeof prepare;
});
afterAll(() => {
  Database.prototype.prepare = prepare;
});

/** Every call that is done once, with what it is asked on a shop that has one header and one straight on the shelf. */
const ASKED: { readonly [Name in OnceCall]: (headerId: string) => AskedOf<Name> } = {
  createHeader: () => ({ name: 'New', from: 'demo' }),
  duplicateHeader: (headerId) => ({ headerId, name: 'Twin', as: 'same' }),
  importHeader: () => ({ header: newHeader({ id: 'given', name: 'From a file' }) }),
  addPicture: (headerId) => ({ headerId, picture: pictureOf(jpegBytes(1)) }),
  changeShelf: () => adding({ ...straight, id: 's3' }, { ...straight, id: 's4' }),
  turnShelfBack: () => ({ action: 'undo', step: 1 }),
  carryOutCutPlan: (headerId) => ({
    headers: [{ headerId, baseRevision: 1, edit: { kind: 'setHeader', set: { note: 'cut' } } }],
    changes: [{ kind: 'move', itemId: 's1', pieces: 1, reason: 'cut' }],
    known: [],
    because: 'Cut plan',
    kept: {
      pieces: [],
      stock: [],
      problem: { pieces: [], joints: [], stock: [], saw: DEFAULT_SAW },
      plan: { opened: [], short: [], goals: NO_GOALS, bounds: [], ended: 'searched' },
    },
  }),
};
const NAMES = Object.keys(ASKED) as OnceCall[];

async function stocked(): Promise<{ readonly shop: Shop; readonly headerId: string }> {
  const shop = openShop();
  const { header } = await headerWith(shop, [addPrimary('a')]);
  await shop.must('changeShelf', adding(straight));
  return { shop, headerId: header.id };
}

/** All that such a request could double. */
async function everything(shop: Shop) {
  const { headers } = await shop.must('listHeaders', { place: 'bench' });
  const ids = headers.map(({ headerId }) => headerId);
  const pictures = await Promise.all(ids.map((headerId) => shop.must('listPictures', { headerId })));
  return [ids, pictures, (await shop.must('listStock', {})).stock];
}

describe.each(NAMES)('%s', (name) => {
  test('sent again answers as the first time and does nothing more, after a restart too', async () => {
    const { shop, headerId } = await stocked();
    const request = { ...ASKED[name](headerId), requestId };
    const first = await shop.must(name, request);
    const after = await everything(shop);
    expect(await shop.must(name, request)).toEqual(first);
    await shop.close();
    const again = openShop(shop.folder);
    expect(await again.must(name, request)).toEqual(first);
    expect(await everything(again)).toEqual(after);
  });

  test('is refused for something else under an id that was used', async () => {
    const { shop } = await stocked();
    await shop.must('createHeader', { requestId, name: 'First', from: 'blank' } as AskedOf<'createHeader'>);
    const before = await everything(shop);
    expect(problemOf(await shop.call(name, { ...ASKED[name]('h'), requestId }))?.kind).toBe('invalidRequest');
    expect(await everything(shop)).toEqual(before);
  });

  test('refused by a disk that kept it is recognised', async () => {
    const { shop, headerId } = await stocked();
    const request = { ...ASKED[name](headerId), requestId };
    const before = await everything(shop);
    disk.keepsAndRefuses = true;
    expect(problemOf(await shop.call(name, request))).toMatchObject({ kind: 'storage', fault: 'ioError' });
    const kept = await everything(shop);
    // The disk has it, though nobody was told.
    expect(kept).not.toEqual(before);
    await shop.must(name, request);
    expect(await everything(shop)).toEqual(kept);
  });
});

test('steps refused by a disk that kept them are recognised, and those after them are taken', async () => {
  const { shop, headerId } = await stocked();
  const first = { headerId, baseRevision: 1, steps: [doStep(addPrimary('b'))], draft: null };
  disk.keepsAndRefuses = true;
  expect(problemOf(await shop.call('commitSteps', first))).toMatchObject({ kind: 'storage', fault: 'ioError' });
  expect(await shop.must('readRevision', { headerId })).toEqual({ revision: 2, state: 'open' });
  expect(await shop.must('commitSteps', first)).toEqual({ revision: 2 });
  const steps = [...first.steps, doStep(addPrimary('c'))];
  expect(await shop.must('commitSteps', { ...first, steps })).toEqual({ revision: 3 });
  const { header } = await shop.must('openHeader', { headerId });
  expect(header.primaries.map(({ id }) => id)).toEqual(['c', 'b', 'a']);
});
