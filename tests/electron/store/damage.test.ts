/** Damage: what it takes away is said, what can still be relied on goes on, and a file that cannot be is left as it is. */

import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { adding } from '../../shelf-changes.ts';
import {
  addPrimary,
  doStep,
  faultOfStart,
  hashOf,
  headerWith,
  openShop,
  problemOf,
  type Shop,
  stockStraight,
  withDatabase,
  withoutTrigger,
} from './shop.ts';

/** A folder with a sound database of one header in it, closed. */
async function usedFolder(): Promise<string> {
  const shop = openShop();
  await headerWith(shop, [addPrimary('a'), addPrimary('b')]);
  await shop.close();
  return shop.folder;
}

/** The log that an unclean end after one more draft would leave beside the database. */
async function logOf(folder: string): Promise<Buffer> {
  const shop = openShop(folder);
  const started = await shop.must('start', {});
  const headerId = started.state === 'ready' ? started.lastHeaderId : null;
  await shop.must('saveDraft', { headerId: headerId ?? '', draft: { field: 'quickEntry', text: 'b90' } });
  const wal = readFileSync(`${shop.file}-wal`);
  await shop.close();
  return wal;
}

test('text in the place of a database is not touched', async () => {
  const shop = openShop();
  writeFileSync(shop.file, 'not a database at all, but long enough to have a header of some sort in it'.repeat(20));
  const before = hashOf(shop.file);
  expect(await faultOfStart(shop)).toMatchObject({ fault: 'corrupt' });
  expect(hashOf(shop.file)).toBe(before);
});

/** Runs with the file damaged at each place where the text stands: at each alone the damage must be noticed. */
async function atEachPlace(text: string, folder: string, look: (damaged: Shop) => Promise<void>): Promise<number> {
  const file = join(folder, 'evenrun.sqlite');
  const bytes = readFileSync(file);
  let places = 0;
  for (let at = bytes.indexOf(text); at >= 0; at = bytes.indexOf(text, at + 1)) {
    const damaged = Buffer.from(bytes);
    damaged[at] = (damaged[at] ?? 0) ^ 1;
    writeFileSync(file, damaged);
    withDatabase(file, (db) => expect(db.pragma('integrity_check', { simple: true })).toBe('ok'));
    const shop = openShop(folder);
    await look(shop);
    await shop.close();
    places += 1;
  }
  return places;
}

const item = stockStraight('marked', 'Marked tube', 1);

test('a value of the shelf changed on disk is said at the start, and nothing but that item is left out', async () => {
  const folder = await usedFolder();
  const shelf = openShop(folder);
  const requestId = 'marked-item';
  const request = { ...adding(item), requestId };
  await shelf.must('changeShelf', request);
  await shelf.must('changeShelf', adding({ ...item, id: 'other', material: 'Other tube' }));
  await shelf.close();
  const found: unknown[] = [];
  // It stands on the shelf, in the words of the step that put it there, and in what its request was answered.
  await atEachPlace('Marked tube', folder, async (damaged) => {
    const started = await damaged.must('start', {});
    const notices = started.state === 'ready' ? started.notices.join() : '';
    const { stock } = await damaged.must('listStock', {});
    const again = await damaged.call('changeShelf', request);
    const table = /\((\w+): 1 of/.exec(notices)?.[1];
    found.push([table, stock.map((each) => each.item.id), again.ok]);
    const { headers } = await damaged.must('listHeaders', { place: 'bench' });
    const { headerId = '', revision = 0 } = headers[0] ?? {};
    const steps = [doStep(addPrimary(`p${revision}`))];
    await damaged.must('commitSteps', { headerId, baseRevision: revision, steps });
  });
  // A request whose answer cannot be told is refused, for doing it again could do it twice.
  expect(found).toHaveLength(3);
  expect(found).toContainEqual(['shelf_steps', ['marked', 'other'], true]);
  expect(found).toContainEqual(['stock', ['other'], true]);
  expect(found).toContainEqual(['requests', ['marked', 'other'], false]);
});

test('preferences changed on disk are as at first, and that is said', async () => {
  const folder = await usedFolder();
  const shop = openShop(folder);
  await shop.must('savePreferences', { preferences: { theme: 'dark', density: 'desk' } });
  await shop.close();
  withDatabase(shop.file, (db) => db.exec(`UPDATE settings SET value = replace(value, 'dark', 'light')`));
  const started = await openShop(folder).must('start', {});
  if (started.state !== 'ready') throw new Error('not opened');
  expect(started.preferences).toEqual({ theme: 'system', density: 'bench' });
  expect(started.lastHeaderId).not.toBeNull();
  expect(started.notices.join()).toContain('settings: 1 of 3 rows');
});

test('R9: a page that is lost is said, and neither the file nor a log beside it is written to', async () => {
  const folder = await usedFolder();
  const file = join(folder, 'evenrun.sqlite');
  const sound = readFileSync(file);
  const wal = await logOf(folder);
  // The log alone is no reason to refuse the file.
  writeFileSync(file, sound);
  writeFileSync(`${file}-wal`, wal);
  const shop = openShop(folder);
  expect((await shop.must('start', {})).state).toBe('ready');
  await shop.close();
  const root = withDatabase(file, (db) =>
    db.prepare<[], number>("SELECT rootpage FROM sqlite_schema WHERE name = 'stock'").pluck().get(),
  );
  writeFileSync(file, Buffer.from(sound).fill(0, ((root ?? 1) - 1) * 4096, (root ?? 1) * 4096));
  writeFileSync(`${file}-wal`, wal);
  const before = [hashOf(file), hashOf(`${file}-wal`)];
  expect(await faultOfStart(openShop(folder))).toMatchObject({ fault: 'corrupt' });
  expect([hashOf(file), hashOf(`${file}-wal`)]).toEqual(before);
});

test('rows of the journal that are gone are said at the start', async () => {
  const shop = openShop();
  const { header } = await headerWith(shop, [addPrimary('a'), addPrimary('b')]);
  await headerWith(shop, []);
  await shop.close();
  withoutTrigger(shop.file, 'snapshots_no_delete', (db) => db.exec('DELETE FROM snapshots WHERE revision > 0'));
  withoutTrigger(shop.file, 'journal_no_delete', (db) =>
    db.prepare('DELETE FROM journal WHERE header_id = ? AND revision = 2').run(header.id),
  );
  const started = await openShop(shop.folder).must('start', {});
  expect(started.state === 'ready' && started.notices.join()).toContain('steps missing from the journal: 1');
});

test('a value of a header changed on disk is said at the start, is never shown, and keeps no other from going on', async () => {
  const shop = openShop();
  const whole = await headerWith(shop, [addPrimary('a'), addPrimary('b')], 'Marked header');
  const other = await headerWith(shop, [addPrimary('c')]);
  await shop.close();
  let locked = 0;
  const places = await atEachPlace('Marked header', shop.folder, async (damaged) => {
    const started = await damaged.must('start', {});
    expect(started.state === 'ready' && started.notices.join()).toMatch(/what is kept is damaged/);
    const opened = await damaged.must('openHeader', { headerId: whole.header.id });
    expect(opened.header).toEqual(whole.header);
    const steps = [doStep(addPrimary('d'))];
    const step = await damaged.call('commitSteps', { headerId: whole.header.id, baseRevision: 2, steps });
    // A snapshot is only a way to be quicker: without it nothing is lost, so nothing is locked.
    expect(step.ok).toBe(opened.damage === null);
    if (opened.damage !== null) {
      locked += 1;
      expect(problemOf(step)).toEqual(opened.damage);
      const copy = await damaged.must('duplicateHeader', { headerId: whole.header.id, name: 'Copy', as: 'same' });
      await damaged.must('commitSteps', { headerId: copy.header.id, baseRevision: 0, steps });
    }
    await damaged.must('commitSteps', { headerId: other.header.id, baseRevision: 1, steps });
  });
  // In two snapshots, and in the rows of the making and of two steps.
  expect([places, locked]).toEqual([5, 3]);
});

test('rows that belong to no header are said at the start', async () => {
  const folder = await usedFolder();
  withoutTrigger(join(folder, 'evenrun.sqlite'), 'journal_only_append', (db) => {
    db.pragma('foreign_keys = OFF');
    db.exec(`INSERT INTO bin VALUES ('gone', '', 0);
      INSERT INTO journal SELECT 99, 'gone', revision, step_id, action, of_revision, undo_next, redo_next, label, edit,
        inverse, changed_at, name, state, primary_count, piece_count, before, checksum FROM journal WHERE revision = 0`);
  });
  const started = await openShop(folder).must('start', {});
  const notices = started.state === 'ready' ? started.notices.join() : '';
  for (const table of ['bin', 'journal']) expect(notices).toContain(`rows of ${table} belong to no header`);
});

test('a truncated file is not opened', async () => {
  const folder = await usedFolder();
  const file = join(folder, 'evenrun.sqlite');
  writeFileSync(file, readFileSync(file).subarray(0, 5000));
  expect(await faultOfStart(openShop(folder))).toMatchObject({ fault: 'corrupt' });
});

test('damage that appears while the program runs stops it from acknowledging', async () => {
  const shop = openShop();
  const { header } = await headerWith(shop, [addPrimary('a')]);
  withDatabase(shop.file, (db) => {
    db.unsafeMode();
    db.pragma('writable_schema = ON');
    db.exec("UPDATE sqlite_schema SET rootpage = 99999 WHERE name = 'stock'");
    db.pragma(`schema_version = ${Number(db.pragma('schema_version', { simple: true })) + 1}`);
  });
  expect(problemOf(await shop.call('listStock', {}))).toMatchObject({ fault: 'corrupt' });
  const step = await shop.call('commitSteps', {
    headerId: header.id,
    baseRevision: 1,
    steps: [doStep(addPrimary('b'))],
  });
  expect(problemOf(step)).toMatchObject({ fault: 'corrupt' });
});
