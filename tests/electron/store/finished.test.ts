/** A finished header is frozen: by the program, and by the database itself against anyone's SQL. */

import { describe, expect, test } from 'vitest';
import { EVERYTHING } from '../../archive-asked.ts';
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

/** What stays the same in a row that a test makes of another; after its place, header, revision and `before`. */
const REST = `step_id, action, of_revision, undo_next, redo_next, label, edit, inverse, changed_at, name, state,
  primary_count, piece_count, checksum`;
const COLUMNS = `place, header_id, revision, before, ${REST}`;
const SNAPSHOT = 'header_id, edit_meaning, revision, chain, document, checksum';

async function finishedHeader(shop: Shop, name = 'Hill-climb four') {
  const edits = [addPrimary('a', [straight('s1', 10)]), addPrimary('b', [straight('s2', 10.5)])];
  return headerWith(
    shop,
    [...edits, { kind: 'setHeader', set: { note: 'Crème bay, long' } }, { kind: 'finishHeader' }],
    name,
  );
}

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

  test('a copy of it is open, and to be built anew it has nothing but planned pieces', async () => {
    const shop = openShop();
    const { header } = await finishedHeader(shop);
    const same = await shop.must('duplicateHeader', { headerId: header.id, name: 'Same', as: 'same' });
    expect(same.header.primaries).toEqual(header.primaries);
    const copy = await shop.must('duplicateHeader', { headerId: header.id, name: 'Again', as: 'again' });
    expect(copy.header.state).toBe('open');
    const planned = header.primaries.map((primary) => ({
      ...primary,
      pieces: primary.pieces.map((piece) => ({ ...piece, state: 'planned', locked: false })),
    }));
    expect(copy.header.primaries).toEqual(planned);
    await shop.must('commitSteps', { headerId: copy.header.id, baseRevision: 0, steps: [doStep(addPrimary('c'))] });
  });
});

describe('by the database', () => {
  test.each([
    ["UPDATE headers SET id = 'x'", /kept/],
    ['DELETE FROM headers', /kept/],
    ['INSERT OR REPLACE INTO headers SELECT * FROM headers', /kept/],
    [
      `INSERT INTO journal (${COLUMNS}) SELECT place + 1, header_id, revision + 1, checksum, ${REST}
        FROM journal ORDER BY place DESC LIMIT 1`,
      /finished/,
    ],
    [`INSERT OR REPLACE INTO journal (${COLUMNS}) SELECT ${COLUMNS} FROM journal`, /append-only/],
    ["UPDATE journal SET label = 'x'", /append-only/],
    ['DELETE FROM journal', /append-only/],
    [`INSERT INTO snapshots (${SNAPSHOT}) SELECT ${SNAPSHOT} FROM snapshots`, /replaced/],
    [`INSERT OR REPLACE INTO snapshots (rowid, ${SNAPSHOT}) SELECT rowid, ${SNAPSHOT} FROM snapshots`, /replaced/],
    [
      `INSERT INTO snapshots (${SNAPSHOT}) SELECT header_id, 1, revision, checksum, '{}', 0 FROM journal
        WHERE revision = 2`,
      /replaced/,
    ],
    [
      `INSERT INTO snapshots (${SNAPSHOT}) SELECT header_id, 1, revision + 1, chain, document, 0 FROM snapshots
        ORDER BY revision DESC LIMIT 1`,
      /of a step/,
    ],
    ["UPDATE snapshots SET document = '{}'", /kept/],
    ['DELETE FROM snapshots', /kept/],
    ["UPDATE archive SET words = 'x'", /keeps/],
    ['DELETE FROM archive', /keeps/],
    ['INSERT OR REPLACE INTO archive SELECT * FROM archive', /keeps/],
  ])('%s is refused', async (sql, words) => {
    const shop = openShop();
    await finishedHeader(shop);
    withDatabase(shop.file, (db) => expect(() => db.exec(sql)).toThrow(words));
  });

  test.each([
    `INSERT OR REPLACE INTO journal (${COLUMNS}) SELECT place, ?, revision, before, ${REST} FROM journal WHERE place = 1`,
    `INSERT OR REPLACE INTO snapshots (rowid, ${SNAPSHOT}) SELECT 1, header_id, 1, revision, checksum, '{}', 0
      FROM journal WHERE header_id = ? AND revision = 1`,
    'UPDATE OR REPLACE journal SET place = 1 WHERE header_id = ? AND revision = 1',
    'UPDATE OR REPLACE snapshots SET rowid = 1 WHERE header_id = ?',
  ])('a row of an open header does not take the place of one of a finished header (%#)', async (sql) => {
    const shop = openShop();
    await finishedHeader(shop);
    const { header } = await headerWith(shop, [addPrimary('a')]);
    withDatabase(shop.file, (db) => {
      expect(() => db.prepare(sql).run(header.id)).toThrow(/append-only|replaced|kept/);
    });
  });

  /** A row made of the newest one of an open header, which is the second of the journal. */
  const rowLike = (over: string) =>
    `INSERT OR REPLACE INTO journal (${COLUMNS}) SELECT ${over}, ${REST} FROM journal ORDER BY place DESC LIMIT 1`;

  test.each([
    ['the next step', 'place + 1, header_id, revision + 1, checksum', null],
    ['a place that is taken', 'place, header_id, revision + 1, checksum', /append-only/],
    ['a place before the last', 'place - 1, header_id, revision + 1, checksum', /append-only/],
    ['a revision that is taken', 'place + 1, header_id, revision, before', /append-only/],
    ['a revision after the next', 'place + 1, header_id, revision + 2, checksum', /append-only/],
    ['a step that says it follows another', 'place + 1, header_id, revision + 1, checksum + 1', /append-only/],
    ['a step of a header that is not there', "place + 1, 'nobody', revision, before", /append-only/],
  ])('the journal of an open header takes only the next step: %s', async (_what, over, words) => {
    const shop = openShop();
    await headerWith(shop, [{ kind: 'setHeader', set: { note: 'long bay' } }]);
    withDatabase(shop.file, (db) => {
      const put = () => db.prepare(rowLike(over)).run();
      if (words === null) expect(put().changes).toBe(1);
      else expect(put).toThrow(words);
    });
  });

  test('nor does a second step take the place of one of the same transaction', async () => {
    const shop = openShop();
    await headerWith(shop, [addPrimary('a')]);
    withDatabase(shop.file, (db) => {
      const put = db.prepare(`INSERT OR REPLACE INTO journal (${COLUMNS})
        SELECT 3, header_id, 2, checksum, ${REST} FROM journal WHERE revision = 1`);
      db.exec('BEGIN');
      expect(put.run().changes).toBe(1);
      expect(() => put.run()).toThrow(/append-only/);
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
      primaryCount: 2,
      isDamaged: false,
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
      primaryCount: 0,
    });
  });
});
