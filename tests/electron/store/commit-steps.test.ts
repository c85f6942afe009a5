/** Steps: committed once, in order, against the revision that they were made for, and taken back over restarts. */

import { describe, expect, test } from 'vitest';
import {
  addPrimary,
  doStep,
  headerWith,
  openShop,
  problemOf,
  rebuiltText,
  stepId,
  storedText,
  straight,
  withDatabase,
  withoutTrigger,
} from './shop.ts';

describe('a request sent again', () => {
  test('answers with the same revision and changes nothing', async () => {
    const shop = openShop();
    const { header } = await headerWith(shop, []);
    const request = { headerId: header.id, baseRevision: 0, steps: [doStep(addPrimary('a')), doStep(addPrimary('b'))] };
    expect(await shop.must('commitSteps', request)).toEqual({ revision: 2 });
    expect(await shop.must('commitSteps', request)).toEqual({ revision: 2 });
    await shop.must('commitSteps', { headerId: header.id, baseRevision: 2, steps: [doStep(addPrimary('c'))] });
    expect(await shop.must('commitSteps', request)).toEqual({ revision: 2 });
    expect((await shop.must('openHeader', { headerId: header.id })).header.primaries.map((p) => p.id)).toEqual([
      'c',
      'b',
      'a',
    ]);
  });

  test('after a restart too, and with steps added to it', async () => {
    const shop = openShop();
    const { header } = await headerWith(shop, []);
    const sent = doStep(addPrimary('a'));
    await shop.must('commitSteps', { headerId: header.id, baseRevision: 0, steps: [sent] });
    await shop.close();
    const again = openShop(shop.folder);
    const steps = [sent, doStep(addPrimary('b'))];
    expect(await again.must('commitSteps', { headerId: header.id, baseRevision: 0, steps })).toEqual({ revision: 2 });
    expect((await again.must('openHeader', { headerId: header.id })).undo).toHaveLength(2);
  });

  test('a step is known by its place as well as its id, and is not there twice in one request', async () => {
    const shop = openShop();
    const one = await headerWith(shop, []);
    const other = await headerWith(shop, []);
    const step = doStep(addPrimary('a'));
    await shop.must('commitSteps', { headerId: one.header.id, baseRevision: 0, steps: [step] });
    // The same id in another header is another step.
    await shop.must('commitSteps', { headerId: other.header.id, baseRevision: 0, steps: [step] });
    expect((await shop.must('openHeader', { headerId: other.header.id })).header.primaries).toHaveLength(1);
    const twin = doStep(addPrimary('b'));
    const twice = await shop.call('commitSteps', { headerId: other.header.id, baseRevision: 1, steps: [twin, twin] });
    expect(problemOf(twice)?.kind).toBe('invalidRequest');
    expect(await shop.must('readRevision', { headerId: other.header.id })).toEqual({ revision: 1, state: 'open' });
  });
});

describe('a draft sent along', () => {
  const draft = { field: 'entry:a', text: '3 1/' };
  const kept = async (shop: ReturnType<typeof openShop>, headerId: string) =>
    (await shop.must('openHeader', { headerId })).draft;

  test('takes the place of the one before with the steps, and goes with them', async () => {
    const shop = openShop();
    const { header } = await headerWith(shop, [addPrimary('a')]);
    const headerId = header.id;
    await shop.must('saveDraft', { headerId, draft });
    await shop.must('commitSteps', { headerId, baseRevision: 1, steps: [doStep(addPrimary('b'))] });
    expect(await kept(shop, headerId)).toEqual(draft);
    const later = { ...draft, text: '4' };
    const request = { headerId, baseRevision: 2, steps: [doStep(addPrimary('c'))], draft: later };
    await shop.must('commitSteps', request);
    expect(await kept(shop, headerId)).toEqual(later);
    await shop.must('commitSteps', { ...request, draft: null });
    expect(await kept(shop, headerId)).toBeNull();
  });

  test('changes nothing when the steps are refused, or the header is not there', async () => {
    const shop = openShop();
    const { header } = await headerWith(shop, [addPrimary('a')]);
    const headerId = header.id;
    await shop.must('saveDraft', { headerId, draft });
    const steps = [doStep(addPrimary('a'))];
    expect((await shop.call('commitSteps', { headerId, baseRevision: 1, steps, draft: null })).ok).toBe(false);
    expect((await shop.call('commitSteps', { headerId, baseRevision: 0, steps, draft: null })).ok).toBe(false);
    expect(await kept(shop, headerId)).toEqual(draft);
    const missing = await shop.call('commitSteps', { headerId: 'nobody', baseRevision: 0, steps, draft });
    expect(problemOf(missing)?.kind).toBe('notFound');
  });
});

describe('a stale request', () => {
  test('from a second process is told what was found, and the newer work stays', async () => {
    const shop = openShop();
    const second = openShop(shop.folder);
    const { header } = await headerWith(shop, [addPrimary('a')]);
    await second.must('commitSteps', { headerId: header.id, baseRevision: 1, steps: [doStep(addPrimary('b'))] });
    const late = await shop.call('commitSteps', {
      headerId: header.id,
      baseRevision: 1,
      steps: [doStep(addPrimary('c'))],
    });
    expect(problemOf(late)).toEqual({ kind: 'changedElsewhere', expected: 1, found: 2 });
    const opened = await shop.must('openHeader', { headerId: header.id });
    expect(opened.header.primaries.map((p) => p.id)).toEqual(['b', 'a']);
    await shop.must('commitSteps', { headerId: header.id, baseRevision: 2, steps: [doStep(addPrimary('c'))] });
    expect((await second.must('readRevision', { headerId: header.id })).revision).toBe(3);
  });

  test('repeated steps with unknown ones before them are refused whole', async () => {
    const shop = openShop();
    const { header } = await headerWith(shop, []);
    const known = doStep(addPrimary('a'));
    await shop.must('commitSteps', { headerId: header.id, baseRevision: 0, steps: [known] });
    const steps = [doStep(addPrimary('b')), known];
    expect(problemOf(await shop.call('commitSteps', { headerId: header.id, baseRevision: 0, steps }))?.kind).toBe(
      'changedElsewhere',
    );
  });
});

describe('all steps of a request, or none', () => {
  test('a step that does not apply takes the others back', async () => {
    const shop = openShop();
    const { header } = await headerWith(shop, []);
    const steps = [doStep(addPrimary('a')), doStep({ kind: 'removePrimary', primaryId: 'none' })];
    expect(problemOf(await shop.call('commitSteps', { headerId: header.id, baseRevision: 0, steps }))?.kind).toBe(
      'unknownId',
    );
    const opened = await shop.must('openHeader', { headerId: header.id });
    expect([opened.revision, opened.header.primaries, opened.undo]).toEqual([0, [], []]);
    // The first step was not kept, so its id is still free.
    expect(await shop.must('commitSteps', { headerId: header.id, baseRevision: 0, steps: steps.slice(0, 1) })).toEqual({
      revision: 1,
    });
  });

  test('nothing is done to a header that is not there', async () => {
    const reply = await openShop().call('commitSteps', {
      headerId: 'x',
      baseRevision: 0,
      steps: [doStep(addPrimary('a'))],
    });
    expect(problemOf(reply)).toEqual({ kind: 'notFound', what: 'header', id: 'x' });
  });
});

describe('undo and redo', () => {
  test('go back to the first step and forward to the last, over restarts', async () => {
    let shop = openShop();
    const made = await headerWith(shop, [addPrimary('a'), addPrimary('b', [straight('s1')])]);
    const headerId = made.header.id;
    await shop.must('commitSteps', {
      headerId,
      baseRevision: 2,
      steps: [
        { action: 'undo', stepId: stepId() },
        { action: 'undo', stepId: stepId() },
      ],
    });
    await shop.close();
    shop = openShop(shop.folder);
    const back = await shop.must('openHeader', { headerId });
    expect([back.header.primaries, back.undo.length, back.redo.length, back.revision]).toEqual([[], 0, 2, 4]);
    expect(back.redo.at(-1)?.edit).toEqual(addPrimary('a'));
    expect(
      problemOf(
        await shop.call('commitSteps', { headerId, baseRevision: 4, steps: [{ action: 'undo', stepId: stepId() }] }),
      ),
    ).toEqual({
      kind: 'nothingToUndo',
      action: 'undo',
    });
    await shop.must('commitSteps', {
      headerId,
      baseRevision: 4,
      steps: [
        { action: 'redo', stepId: stepId() },
        { action: 'redo', stepId: stepId() },
      ],
    });
    const forward = await shop.must('openHeader', { headerId });
    expect(forward.header).toEqual(made.header);
    expect([forward.undo, forward.redo]).toEqual([made.undo, []]);
  });

  test('a new step ends what could be redone', async () => {
    const shop = openShop();
    const { header } = await headerWith(shop, [addPrimary('a')]);
    const steps = [{ action: 'undo' as const, stepId: stepId() }, doStep(addPrimary('b'))];
    await shop.must('commitSteps', { headerId: header.id, baseRevision: 1, steps });
    const opened = await shop.must('openHeader', { headerId: header.id });
    expect([opened.undo.length, opened.redo]).toEqual([1, []]);
    const redo = await shop.call('commitSteps', {
      headerId: header.id,
      baseRevision: 3,
      steps: [{ action: 'redo', stepId: stepId() }],
    });
    expect(problemOf(redo)).toEqual({ kind: 'nothingToUndo', action: 'redo' });
  });

  test('every step has words for the menu', async () => {
    const shop = openShop();
    const { undo } = await headerWith(shop, [addPrimary('a')]);
    expect(undo[0]?.label).toMatch(/\w/);
  });
});

test('the journal leads from the first document to the present one, byte for byte', async () => {
  const shop = openShop();
  const { header } = await headerWith(shop, [
    addPrimary('a'),
    addPrimary('b'),
    { kind: 'setHeader', set: { note: 'x' } },
  ]);
  await shop.must('commitSteps', {
    headerId: header.id,
    baseRevision: 3,
    steps: [{ action: 'undo', stepId: stepId() }],
  });
  await shop.close();
  withDatabase(shop.file, (db) => expect(rebuiltText(db, header.id)).toBe(storedText(db, header.id)));
});

test('steps that are gone from the end of the journal are missed by who made them, and nothing is built on what is left', async () => {
  const shop = openShop();
  const { header } = await headerWith(shop, [addPrimary('a'), addPrimary('b')]);
  const other = await headerWith(shop, []);
  withoutTrigger(shop.file, 'journal_no_delete', (db) =>
    db.prepare('DELETE FROM journal WHERE header_id = ? AND revision = 2').run(header.id),
  );
  const damage = {
    kind: 'damagedHeader',
    headerId: header.id,
    detail: 'the journal no longer leads to step 2',
  };
  expect(await shop.must('openHeader', { headerId: header.id })).toMatchObject({ revision: 1, damage });
  for (const baseRevision of [1, 2]) {
    const steps = [doStep(addPrimary('c'))];
    expect(problemOf(await shop.call('commitSteps', { headerId: header.id, baseRevision, steps }))).toEqual(damage);
  }
  const steps = [doStep(addPrimary('c'))];
  await shop.must('commitSteps', { headerId: other.header.id, baseRevision: 0, steps });
});
