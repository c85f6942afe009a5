/** The journal: a row a step and nothing else, snapshots on the way, and what can be undone walked along it. */

import type Database from 'better-sqlite3';
import { describe, expect, test } from 'vitest';
import type { Edit } from '../../../core/edits/edit.ts';
import { HISTORY_WINDOW } from '../../../electron/store/header/opened-header.ts';
import { STEPS_A_SNAPSHOT } from '../../../electron/store/header/snapshots.ts';
import type { Row } from '../../../electron/store/rows/columns.ts';
import { cellsOf, checksumOf } from '../../../electron/store/rows/row-table.ts';
import {
  addPrimary,
  doStep,
  headerWith,
  openShop,
  problemOf,
  type Shop,
  stepId,
  withDatabase,
  withoutTrigger,
} from './shop.ts';

const note = (text: string): Edit => ({ kind: 'setHeader', set: { note: text } });
const notes = (count: number) => Array.from({ length: count }, (_, at) => note(`note ${at}`));

async function commit(shop: Shop, headerId: string, edits: readonly Edit[]): Promise<number> {
  const { revision } = await shop.must('readRevision', { headerId });
  const request = { headerId, baseRevision: revision, steps: edits.map(doStep) };
  return (await shop.must('commitSteps', request)).revision;
}

/** A snapshot with the checksum that it should have. */
const sealed = (row: Row<'snapshots'>) => ({ ...row, checksum: checksumOf('snapshots', cellsOf('snapshots', row)) });

/** All rows of all tables but the journal. */
function allElse(file: string): unknown {
  return withDatabase(file, (db) => {
    const tables = db
      .prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'table' AND name <> 'journal'")
      .pluck()
      .all();
    return tables.map((table) => [table, db.prepare(`SELECT * FROM ${table}`).all()]);
  });
}

const snapshotsOf = (shop: Shop) =>
  withDatabase(shop.file, (db) =>
    db.prepare<[], number>('SELECT revision FROM snapshots ORDER BY rowid').pluck().all(),
  );

describe('what is written', () => {
  test('a step is one row of the journal and nothing else', async () => {
    const shop = openShop();
    const { header } = await headerWith(shop, [addPrimary('a')]);
    const before = allElse(shop.file);
    await commit(shop, header.id, [note('x')]);
    await shop.must('commitSteps', {
      headerId: header.id,
      baseRevision: 2,
      steps: [{ action: 'undo', stepId: stepId() }],
    });
    expect(allElse(shop.file)).toEqual(before);
    const rows = withDatabase(shop.file, (db) =>
      db.prepare('SELECT revision, action, of_revision, undo_next, redo_next, before FROM journal').raw().all(),
    ) as unknown[][];
    expect(rows.map((row) => row.slice(0, 5))).toEqual([
      [0, 'make', null, null, null],
      [1, 'do', null, 1, null],
      [2, 'do', null, 2, null],
      [3, 'undo', 2, 1, 3],
    ]);
  });

  test('a snapshot is kept of the making, of every so many steps, of the finishing, and of where the program was left', async () => {
    const shop = openShop();
    const { header } = await headerWith(shop, []);
    await commit(shop, header.id, notes(2 * STEPS_A_SNAPSHOT + 3));
    expect(snapshotsOf(shop)).toEqual([0, STEPS_A_SNAPSHOT, 2 * STEPS_A_SNAPSHOT]);
    await shop.close();
    const left = 2 * STEPS_A_SNAPSHOT + 3;
    expect(snapshotsOf(shop)).toEqual([0, STEPS_A_SNAPSHOT, 2 * STEPS_A_SNAPSHOT, left]);
    // Nothing was done in between, so nothing is kept again.
    const again = openShop(shop.folder);
    await again.must('openHeader', { headerId: header.id });
    await again.close();
    expect(snapshotsOf(shop)).toHaveLength(4);
    const last = openShop(shop.folder);
    await commit(last, header.id, [note('welded'), { kind: 'finishHeader' }]);
    expect(snapshotsOf(last).at(-1)).toBe(left + 2);
  });

  test('lists show a header as its newest step left it, in every process', async () => {
    const shop = openShop();
    const { header } = await headerWith(shop, [addPrimary('a')]);
    shop.setClock('2026-05-06T07:08:09.010Z');
    await commit(shop, header.id, [{ kind: 'setHeader', set: { name: 'Six' } }]);
    const shown = {
      headerId: header.id,
      name: 'Six',
      revision: 2,
      primaryCount: 1,
      changedAt: '2026-05-06T07:08:09.010Z',
    };
    for (const one of [shop, openShop(shop.folder)])
      expect((await one.must('listHeaders', { place: 'bench' })).headers).toMatchObject([shown]);
  });
});

describe('the order of lists', () => {
  const names = async (shop: Shop) =>
    (await shop.must('listHeaders', { place: 'bench' })).headers.map(({ name }) => name);

  test('a header comes before one that was made after its last change', async () => {
    const shop = openShop();
    const { header } = await headerWith(shop, [addPrimary('a')]);
    await headerWith(shop, [], 'Made later');
    expect(await names(shop)).toEqual(['Made later', 'Bench four']);
    await commit(shop, header.id, [note('x')]);
    expect(await names(shop)).toEqual(['Bench four', 'Made later']);
  });

  test('a header comes before one that another process has changed since', async () => {
    const shop = openShop();
    const other = await headerWith(shop, [], 'Changed elsewhere');
    const { header } = await headerWith(shop, [addPrimary('a')]);
    await commit(openShop(shop.folder), other.header.id, [note('x')]);
    expect(await names(shop)).toEqual(['Changed elsewhere', 'Bench four']);
    await commit(shop, header.id, [note('x')]);
    expect(await names(shop)).toEqual(['Bench four', 'Changed elsewhere']);
  });
});

test('a process that holds a header writes on top of what another has put there', async () => {
  const shop = openShop();
  const { header } = await headerWith(shop, [addPrimary('a')]);
  const second = openShop(shop.folder);
  await commit(second, header.id, [addPrimary('b')]);
  await commit(shop, header.id, [addPrimary('c')]);
  await commit(second, header.id, [addPrimary('d')]);
  const { header: now } = await shop.must('openHeader', { headerId: header.id });
  expect(now.primaries.map(({ id }) => id)).toEqual(['d', 'c', 'b', 'a']);
});

describe('the history', () => {
  test('is sent some steps at a time, and all of it can be asked for', async () => {
    const shop = openShop();
    const { header } = await headerWith(shop, []);
    const count = 2 * HISTORY_WINDOW + 5;
    await commit(shop, header.id, notes(count));
    for (const action of ['undo', 'redo'] as const) {
      const opened = await openShop(shop.folder).must('openHeader', { headerId: header.id });
      const [given, more] = action === 'undo' ? [opened.undo, opened.moreUndo] : [opened.redo, opened.moreRedo];
      expect(given).toHaveLength(HISTORY_WINDOW);
      const all = [...given];
      for (let from = more; from !== null; ) {
        const answer = await shop.must('readHistory', { headerId: header.id, action, from });
        all.unshift(...answer.steps);
        from = answer.more;
      }
      const edits = all.map(({ edit }) => edit);
      expect(edits).toEqual(action === 'undo' ? notes(count) : notes(count).reverse());
      const steps = Array.from({ length: action === 'undo' ? count : 0 }, () => ({ action, stepId: stepId() }));
      if (steps.length > 0) await shop.must('commitSteps', { headerId: header.id, baseRevision: count, steps });
    }
  });

  test('steps that were undone, redone and undone again are walked as they were made', async () => {
    const shop = openShop();
    const { header } = await headerWith(shop, notes(4));
    const turn = (...actions: ('undo' | 'redo')[]) => actions.map((action) => ({ action, stepId: stepId() }));
    const steps = [
      ...turn('undo', 'undo', 'redo', 'undo', 'undo', 'redo'),
      doStep(note('new')),
      ...turn('undo', 'redo', 'undo'),
    ];
    await shop.must('commitSteps', { headerId: header.id, baseRevision: 4, steps });
    const opened = await openShop(shop.folder).must('openHeader', { headerId: header.id });
    expect(opened.undo.map(({ edit }) => edit)).toEqual([note('note 0'), note('note 1')]);
    expect(opened.redo.map(({ edit }) => edit)).toEqual([note('new')]);
    expect(opened.header.note).toBe('note 1');
  });
});

describe('opening', () => {
  /** A header of many steps, closed; what it held; and a hand on its snapshots. */
  async function long() {
    const shop = openShop();
    const { header } = await headerWith(shop, []);
    await commit(shop, header.id, notes(2 * STEPS_A_SNAPSHOT + 9));
    const whole = await shop.must('openHeader', { headerId: header.id });
    await shop.close();
    const change = (act: (db: Database.Database) => void) => withoutTrigger(shop.file, 'snapshots_no_update', act);
    const reopen = () => openShop(shop.folder);
    return { shop, headerId: header.id, whole, change, reopen };
  }

  test('goes back to an older snapshot when newer ones are damaged, and nothing is missing', async () => {
    const { headerId, whole, change, reopen } = await long();
    for (const revision of [2 * STEPS_A_SNAPSHOT + 9, 2 * STEPS_A_SNAPSHOT, STEPS_A_SNAPSHOT]) {
      change((db) => db.prepare("UPDATE snapshots SET document = '{}' WHERE revision = ?").run(revision));
      const shop = reopen();
      expect(await shop.must('openHeader', { headerId })).toEqual(whole);
      await shop.close();
    }
    const shop = reopen();
    expect(await commit(shop, headerId, [note('on')])).toBe(whole.revision + 1);
    await shop.close();
    change((db) => db.exec("UPDATE snapshots SET document = '{}'"));
    expect(problemOf(await reopen().call('openHeader', { headerId }))).toMatchObject({
      kind: 'damagedHeader',
      headerId,
    });
  });

  test('finds a snapshot that the steps do not lead to, though its checksum is right', async () => {
    const { headerId, change, reopen } = await long();
    change((db) => {
      const row = db.prepare<[], Row<'snapshots'>>('SELECT * FROM snapshots ORDER BY revision DESC LIMIT 1').get();
      if (!row) throw new Error('there is no snapshot');
      const document = String(row.document).replace('note 1', 'NOTE 1');
      db.prepare('UPDATE snapshots SET document = @document, checksum = @checksum WHERE revision = @revision').run(
        sealed({ ...row, document }),
      );
    });
    const { damage } = await reopen().must('openHeader', { headerId });
    expect(damage).toMatchObject({
      kind: 'damagedHeader',
      detail: expect.stringMatching(/do not lead to the snapshot/),
    });
  });

  test('finds a first document that is not the one that the journal began with', async () => {
    const shop = openShop();
    const { header } = await headerWith(shop, []);
    withoutTrigger(shop.file, 'snapshots_no_update', (db) => {
      const row = db.prepare<[], Row<'snapshots'>>('SELECT * FROM snapshots').get();
      if (!row) throw new Error('there is no snapshot');
      const document = row.document.replace('Bench four', 'Bench five');
      db.prepare('UPDATE snapshots SET document = @document, checksum = @checksum').run(sealed({ ...row, document }));
    });
    const { damage } = await openShop(shop.folder).must('openHeader', { headerId: header.id });
    expect(damage).toMatchObject({ detail: 'the first step is of another document' });
  });

  test('shows a header up to where its chain breaks after the last snapshot', async () => {
    const shop = openShop();
    const { header } = await headerWith(shop, notes(9));
    withoutTrigger(shop.file, 'journal_no_update', (db) =>
      db.exec("UPDATE journal SET label = 'x' WHERE revision = 6"),
    );
    const opened = await openShop(shop.folder).must('openHeader', { headerId: header.id });
    expect([opened.revision, opened.header.note, opened.undo, opened.redo]).toEqual([5, 'note 4', [], []]);
    expect(opened.damage).toMatchObject({ kind: 'damagedHeader', detail: 'step 6 is damaged' });
    const copy = await openShop(shop.folder).must('duplicateHeader', {
      headerId: header.id,
      name: 'Sound',
      as: 'same',
    });
    expect(copy.header.note).toMatch(
      /^Copied from ".*", which was damaged on disk: its last steps may be missing\.\nnote 4$/,
    );
    expect(copy.damage).toBeNull();
  });

  test('finds that the last steps are gone once the program was left in order', async () => {
    const { shop, headerId, whole, reopen } = await long();
    withoutTrigger(shop.file, 'journal_no_delete', (db) =>
      db.prepare('DELETE FROM journal WHERE revision >= ?').run(whole.revision - 1),
    );
    const opened = await reopen().must('openHeader', { headerId });
    // The snapshot has the document; only how it came about is lost.
    expect([opened.header, opened.revision]).toEqual([whole.header, whole.revision]);
    expect(opened.damage).toMatchObject({ detail: expect.stringMatching(/does not lead to the snapshot/) });
  });

  test('applies steps again only from snapshots that say they mean what they mean now', async () => {
    const { headerId, change, reopen } = await long();
    change((db) => {
      const put = db.prepare('UPDATE snapshots SET edit_meaning = 2, checksum = @checksum WHERE revision = @revision');
      for (const row of db.prepare<[], Row<'snapshots'>>('SELECT * FROM snapshots').all())
        put.run(sealed({ ...row, edit_meaning: 2 }));
    });
    expect(problemOf(await reopen().call('openHeader', { headerId }))).toMatchObject({
      kind: 'damagedHeader',
      headerId,
    });
  });
});
