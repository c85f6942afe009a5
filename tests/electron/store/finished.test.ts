/** A finished header is frozen: by the program, and by the database itself against anyone's SQL. */

import { describe, expect, test } from 'vitest';
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

/** The columns that a step is written to; the first, what stays the same in a step that a test makes of another. */
const STEP_CELLS = 'action, of_revision, label, edit, inverse, changed_at, piece_count, row_revisions, checksum';
const STEP_COLUMNS = `place, step_id, ${STEP_CELLS}`;

async function finishedHeader(shop: Shop, name = 'Hill-climb four') {
  const edits = [addPrimary('a', [straight('s1', 10)]), addPrimary('b', [straight('s2', 10.5)])];
  return headerWith(
    shop,
    [...edits, { kind: 'setHeader', set: { note: 'Crème bay, long' } }, { kind: 'finishHeader' }],
    name,
  );
}

const EVERYTHING = { words: '', odMm: null, primaryCount: null, targetMm: null };

describe('by the program', () => {
  test('no step is taken, undo included, and nothing is offered', async () => {
    const shop = openShop();
    const { header, revision, undo, redo } = await finishedHeader(shop);
    expect([header.state, undo, redo]).toEqual(['finished', [], []]);
    for (const step of [
      doStep(addPrimary('c')),
      doStep({ kind: 'reopenHeader' }),
      { action: 'undo' as const, stepId: stepId() },
    ]) {
      const reply = await shop.call('commitSteps', { headerId: header.id, baseRevision: revision, steps: [step] });
      expect(problemOf(reply)).toEqual({ kind: 'finished', name: 'Hill-climb four' });
    }
  });

  test('steps after finishing in one request take the finishing back', async () => {
    const shop = openShop();
    const { header } = await headerWith(shop, []);
    const steps = [doStep({ kind: 'finishHeader' }), doStep(addPrimary('a'))];
    expect(problemOf(await shop.call('commitSteps', { headerId: header.id, baseRevision: 0, steps }))?.kind).toBe(
      'finished',
    );
    expect((await shop.must('readRevision', { headerId: header.id })).state).toBe('open');
  });

  test('a copy of it is open', async () => {
    const shop = openShop();
    const { header } = await finishedHeader(shop);
    const copy = await shop.must('duplicateHeader', { headerId: header.id, name: 'Again' });
    expect(copy.header.state).toBe('open');
    await shop.must('commitSteps', { headerId: copy.header.id, baseRevision: 0, steps: [doStep(addPrimary('c'))] });
  });
});

describe('by the database', () => {
  test.each([
    ["UPDATE headers SET name = 'x'", /finished|revision grows/],
    ["UPDATE headers SET state = 'open', revision = revision + 1", /finished/],
    ['DELETE FROM headers', /never deleted/],
    ['INSERT OR REPLACE INTO headers SELECT * FROM headers', /never replaced/],
    [
      `INSERT OR REPLACE INTO headers SELECT id, number + 1, name, 'open', revision, touched, primary_count, piece_count,
        changed_at, checksum, primaries FROM headers`,
      /never replaced/,
    ],
    [`INSERT INTO edits (${STEP_COLUMNS}) SELECT max(place) + 1, 'another-step', ${STEP_CELLS} FROM edits`, /finished/],
    ["UPDATE primaries SET document = '{}'", /finished/],
    ['DELETE FROM primaries', /finished/],
    ["INSERT INTO primaries SELECT header_id, 'another', 9, checksum, document FROM primaries LIMIT 1", /finished/],
    ['INSERT OR REPLACE INTO primaries SELECT * FROM primaries', /finished/],
    ["UPDATE frames SET document = '{}'", /finished/],
    ['DELETE FROM frames', /keeps its frame/],
    ['INSERT OR REPLACE INTO frames SELECT * FROM frames', /finished/],
    ["UPDATE edits SET label = 'x'", /append-only/],
    ['DELETE FROM edits', /append-only/],
    [`INSERT OR REPLACE INTO edits (${STEP_COLUMNS}) SELECT ${STEP_COLUMNS} FROM edits`, /finished|append-only/],
    ["UPDATE archive SET name = 'x'", /keeps/],
    ['DELETE FROM archive', /keeps/],
    ['INSERT OR REPLACE INTO archive SELECT * FROM archive', /keeps/],
    ["UPDATE bases SET document = '{}'", /kept/],
    ['DELETE FROM bases', /kept/],
    ['INSERT OR REPLACE INTO bases SELECT * FROM bases', /kept/],
  ])('%s is refused', async (sql, words) => {
    const shop = openShop();
    await finishedHeader(shop);
    withDatabase(shop.file, (db) => expect(() => db.exec(sql)).toThrow(words));
  });

  test.each([
    "INSERT OR REPLACE INTO primaries (rowid, header_id, id, revision, checksum, document) SELECT rowid, ?, 'new', 1, 0, '{}' FROM primaries",
    "INSERT OR REPLACE INTO frames (rowid, header_id, revision, checksum, document) SELECT rowid, ?, 1, 0, '{}' FROM frames",
    'UPDATE OR REPLACE frames SET rowid = (SELECT min(rowid) FROM frames) WHERE header_id = ?',
    'UPDATE OR REPLACE primaries SET rowid = (SELECT min(rowid) FROM primaries) WHERE header_id = ?',
    `INSERT OR REPLACE INTO edits (${STEP_COLUMNS}) SELECT place, step_id || ?, ${STEP_CELLS} FROM edits`,
    `INSERT OR REPLACE INTO headers SELECT 'another', number, name, 'open', revision, touched, primary_count, piece_count,
      changed_at, checksum, primaries FROM headers WHERE id <> ?`,
  ])('a row of an open header does not take the place of one of a finished header (%#)', async (sql) => {
    const shop = openShop();
    await finishedHeader(shop);
    const { header } = await headerWith(shop, [addPrimary('a')]);
    withDatabase(shop.file, (db) => {
      expect(() => db.prepare(sql).run(header.id)).toThrow(/never replaced|keeps its (id|header)|append-only/);
    });
  });

  test('the journal of an open header only grows', async () => {
    const shop = openShop();
    await headerWith(shop, [addPrimary('a')]);
    withDatabase(shop.file, (db) => {
      expect(() => db.exec("UPDATE edits SET label = 'x'")).toThrow(/append-only/);
      expect(() => db.exec("UPDATE headers SET name = 'x'")).toThrow(/revision grows/);
      expect(() => db.exec("UPDATE OR REPLACE headers SET id = 'x', revision = 9")).toThrow(/keeps its id/);
      expect(() => db.exec('UPDATE OR REPLACE headers SET number = 7, revision = 9')).toThrow(
        /keeps its id and number/,
      );
    });
  });

  const placeOf = (number: number, revision: number) => number * 2 ** 32 + revision;
  const next = { place: placeOf(1, 2), stepId: 'another-step' };

  test.each([
    ['the next step', next, null],
    ['a revision that is taken', { ...next, place: placeOf(1, 1) }, /append-only/],
    ['the first place of a header that is not there', { ...next, place: placeOf(2, 1) }, /append-only/],
    ['a revision after the next', { ...next, place: placeOf(1, 3) }, /append-only/],
    ['the place before the first', { ...next, place: placeOf(1, 0) }, /append-only/],
    ['a step that is there already', { ...next, stepId: null }, /append-only/],
    ['no place', { ...next, place: null }, /append-only/],
  ])('the journal of an open header takes only the next step: %s', async (_what, step, words) => {
    const shop = openShop();
    await headerWith(shop, [{ kind: 'setHeader', set: { note: 'long bay' } }]);
    withDatabase(shop.file, (db) => {
      const put = db.prepare(`INSERT OR REPLACE INTO edits (${STEP_COLUMNS})
        SELECT @place, coalesce(@stepId, step_id), ${STEP_CELLS} FROM edits`);
      const putStep = () => put.run(step);
      if (words === null) expect(putStep().changes).toBe(1);
      else expect(putStep).toThrow(words);
    });
  });

  test.each(['changed_at', 'piece_count', 'row_revisions'])('nor a step that lacks only %s', async (missing) => {
    const shop = openShop();
    await headerWith(shop, [addPrimary('a')]);
    withDatabase(shop.file, (db) => {
      const cells = STEP_CELLS.replace(missing, 'NULL');
      const put = db.prepare(
        `INSERT INTO edits (${STEP_COLUMNS}) SELECT place + 1, 'another-step', ${cells} FROM edits`,
      );
      expect(() => put.run()).toThrow(/CHECK constraint/);
    });
  });

  test('nor a step that the header has already gone past', async () => {
    const shop = openShop();
    await headerWith(shop, [addPrimary('a')]);
    withDatabase(shop.file, (db) => {
      db.exec('UPDATE headers SET revision = 9');
      expect(() =>
        db.exec(`INSERT INTO edits (${STEP_COLUMNS}) SELECT place + 1, 'another-step', ${STEP_CELLS} FROM edits`),
      ).toThrow(/append-only/);
    });
  });

  test('nor does a second step take the place of one of the same transaction', async () => {
    const shop = openShop();
    await headerWith(shop, [addPrimary('a')]);
    withDatabase(shop.file, (db) => {
      const put = db.prepare(`INSERT OR REPLACE INTO edits (${STEP_COLUMNS})
        SELECT @place, @stepId, ${STEP_CELLS} FROM edits WHERE revision = 1`);
      db.exec('BEGIN');
      expect(put.run(next).changes).toBe(1);
      expect(() => put.run({ ...next, stepId: 'a-third-step' })).toThrow(/append-only/);
    });
  });
});

describe('the archive', () => {
  test('shows the figures as they were when the header was finished', async () => {
    const shop = openShop();
    shop.setClock('2026-05-06T07:08:09Z');
    const { header } = await finishedHeader(shop);
    const { rows } = await shop.must('searchArchive', EVERYTHING);
    // Straights of 10 and 10.5 in: the target is the longest, 266.7 mm; mean 260.35, spread 12.7.
    expect(rows).toHaveLength(1);
    expect(rows[0]).toMatchObject({
      headerId: header.id,
      finishedAt: '2026-05-06T07:08:09.000Z',
      material: '304 stainless',
      primaries: [
        { name: 'b', pieces: [{ kind: 'straight' }] },
        { name: 'a', pieces: [{ kind: 'straight' }] },
      ],
    });
    expect(rows[0]?.odMm).toBeCloseTo(44.45, 9);
    expect(rows[0]?.targetMm).toBeCloseTo(266.7, 9);
    expect(rows[0]?.meanMm).toBeCloseTo(260.35, 9);
    expect(rows[0]?.spreadMm).toBeCloseTo(12.7, 9);
  });

  test('is found by words without case and accents, tube, cylinders and length, and by nothing else', async () => {
    const shop = openShop();
    await finishedHeader(shop);
    const found = async (over: Partial<typeof EVERYTHING> | object) =>
      (await shop.must('searchArchive', { ...EVERYTHING, ...over })).rows.length;
    expect(await found({ words: 'CREME hill 304' })).toBe(1);
    expect(await found({ words: 'hill valley' })).toBe(0);
    expect(await found({ words: '%' })).toBe(0);
    expect(await found({ odMm: { lowMm: 44.45, highMm: 44.45 } })).toBe(1);
    expect(await found({ odMm: { lowMm: 45, highMm: 50 } })).toBe(0);
    expect(await found({ primaryCount: 2 })).toBe(1);
    expect(await found({ primaryCount: 4 })).toBe(0);
    expect(await found({ targetMm: { lowMm: 266, highMm: 267 } })).toBe(1);
    expect(await found({ targetMm: { lowMm: 0, highMm: 266 } })).toBe(0);
  });

  test('newest first, without what is in the bin', async () => {
    const shop = openShop();
    const first = await finishedHeader(shop, 'One');
    shop.setClock('1999-01-01T00:00:00Z');
    await finishedHeader(shop, 'Two');
    expect((await shop.must('searchArchive', EVERYTHING)).rows.map((row) => row.name)).toEqual(['Two', 'One']);
    await shop.must('binHeader', { headerId: first.header.id });
    expect((await shop.must('searchArchive', EVERYTHING)).rows.map((row) => row.name)).toEqual(['Two']);
  });

  test('a header without primaries can be finished too', async () => {
    const shop = openShop();
    await headerWith(shop, [{ kind: 'finishHeader' }]);
    expect((await shop.must('searchArchive', EVERYTHING)).rows[0]).toMatchObject({
      targetMm: 0,
      spreadMm: 0,
      primaries: [],
    });
  });
});
