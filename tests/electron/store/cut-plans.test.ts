/** A cut plan that is carried out is one act in two books: the header's pieces and the shelf's stock are changed, undone and done again together, or not at all. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { batchOf, type Edit, type SingleEdit } from '../../../core/edits/edit.ts';
import { cutPieceId } from '../../../core/stock/plan/from-shelf.ts';
import { setting } from '../../shelf-changes.ts';
import { planned, planRequest, shopWithPlan } from './planned-shop.ts';
import { doStep, openShop, problemOf, type Shop, stepId, withDatabase } from './shop.ts';

async function states(shop: Shop, headerId: string): Promise<string> {
  const { header } = await shop.must('openHeader', { headerId });
  return header.primaries.flatMap(({ pieces }) => pieces.map(({ state }) => state)).join(' ');
}

async function onShelf(shop: Shop): Promise<readonly string[]> {
  const { stock } = await shop.must('listStock', {});
  return stock.map(({ item }) => `${item.count} x ${item.kind === 'straight' ? item.length.value : item.angleDeg}`);
}

const turn = async (shop: Shop, headerId: string, action: 'undo' | 'redo') => {
  const { revision } = await shop.must('readRevision', { headerId });
  return await shop.call('commitSteps', { headerId, baseRevision: revision, steps: [{ action, stepId: stepId() }] });
};

const CUT = 'cut cut cut';
const PLANNED = 'planned planned planned';
// 48 - 20 - 20 - 6 - 3/16 = 1 13/16, below the 2 in that are worth keeping; so a bar is used and nothing kept.
const BEFORE = ['2 x 48'];
const AFTER = ['1 x 48'];

describe('carrying out', () => {
  test('takes the stock, marks the pieces cut, and keeps the cut list', async () => {
    const { shop, headerId } = await shopWithPlan();
    const asked = await planRequest(shop, headerId);
    const { step } = await shop.must('carryOutCutPlan', asked);
    expect(await states(shop, headerId)).toBe(CUT);
    expect(await onShelf(shop)).toEqual(AFTER);
    const { plans } = await shop.must('listCutPlans', { headerId });
    expect(plans).toMatchObject([{ step, kept: asked.kept }]);
    const { undo } = await shop.must('openHeader', { headerId });
    expect(undo.at(-1)).toMatchObject({ label: 'cut by plan: 3 pieces', isPlan: true });
    expect(undo.filter(({ isPlan }) => isPlan)).toHaveLength(1);
    expect((await shop.must('readShelfHistory', {})).undo).toEqual({ step, label: 'Cut plan: Bench four' });
  });

  test('sent again is done once', async () => {
    const { shop, headerId } = await shopWithPlan();
    const asked = { ...(await planRequest(shop, headerId)), requestId: 'once-and-only' };
    const first = await shop.send('carryOutCutPlan', asked);
    expect(await shop.send('carryOutCutPlan', asked)).toEqual(first);
    expect(await onShelf(shop)).toEqual(AFTER);
  });

  test.each([
    [
      'the header has gone on',
      async (shop: Shop, headerId: string) => {
        const { revision } = await shop.must('readRevision', { headerId });
        const steps = [doStep({ kind: 'setHeader', set: { note: 'changed' } })];
        await shop.must('commitSteps', { headerId, baseRevision: revision, steps });
      },
      'changedElsewhere',
    ],
    [
      'a row that it opens was changed',
      async (shop: Shop) => {
        const { stock } = await shop.must('listStock', {});
        for (const { item, revision } of stock)
          await shop.must('changeShelf', setting({ ...item, note: 'x' }, revision));
      },
      'changedElsewhere',
    ],
    [
      'a row that it opens is gone',
      async (shop: Shop) => {
        const { stock } = await shop.must('listStock', {});
        const changes = stock.map(({ item, revision }) => ({ kind: 'retire' as const, itemId: item.id, revision }));
        await shop.must('changeShelf', { changes, because: '' });
      },
      'notFound',
    ],
  ] as const)('is refused whole when %s', async (_when, change, kind) => {
    const { shop, headerId } = await shopWithPlan();
    const asked = await planRequest(shop, headerId);
    await change(shop, headerId);
    const before = await onShelf(shop);
    expect(problemOf(await shop.call('carryOutCutPlan', asked))?.kind).toBe(kind);
    expect([await states(shop, headerId), await onShelf(shop)]).toEqual([PLANNED, before]);
    expect((await shop.must('listCutPlans', { headerId })).plans).toEqual([]);
  });

  test('is refused whole when the shelf refuses: the header then is as it was, in memory too', async () => {
    const { shop, headerId } = await shopWithPlan();
    const asked = await planRequest(shop, headerId);
    const changes = [{ kind: 'move', itemId: 'bar', pieces: 3, reason: 'cut' }] as const;
    expect(problemOf(await shop.call('carryOutCutPlan', { ...asked, changes: [...changes] }))?.kind).toBe(
      'stockNotEnough',
    );
    expect(await states(shop, headerId)).toBe(PLANNED);
    await shop.must('carryOutCutPlan', asked);
    expect(await states(shop, headerId)).toBe(CUT);
  });
});

describe('taken back', () => {
  test('by undo on the bench, the stock comes back as well, and goes again by redo', async () => {
    const { shop, headerId } = await shopWithPlan();
    await shop.must('carryOutCutPlan', await planRequest(shop, headerId));
    for (let turns = 0; turns < 2; turns += 1) {
      expect(await turn(shop, headerId, 'undo')).toMatchObject({ ok: true, value: { movedStock: true } });
      expect([await states(shop, headerId), await onShelf(shop)]).toEqual([PLANNED, BEFORE]);
      expect((await shop.must('listCutPlans', { headerId })).plans).toEqual([]);
      expect(await turn(shop, headerId, 'redo')).toMatchObject({ ok: true, value: { movedStock: true } });
      expect([await states(shop, headerId), await onShelf(shop)]).toEqual([CUT, AFTER]);
      expect((await shop.must('listCutPlans', { headerId })).plans).toHaveLength(1);
    }
  });

  test('by undo on the shelf, the pieces are planned again, and cut again by redo', async () => {
    const { shop, headerId } = await shopWithPlan();
    const { step } = await shop.must('carryOutCutPlan', await planRequest(shop, headerId));
    for (let turns = 0; turns < 2; turns += 1) {
      await shop.must('turnShelfBack', { action: 'undo', step });
      expect([await states(shop, headerId), await onShelf(shop)]).toEqual([PLANNED, BEFORE]);
      await shop.must('turnShelfBack', { action: 'redo', step });
      expect([await states(shop, headerId), await onShelf(shop)]).toEqual([CUT, AFTER]);
    }
    // What was turned back on the shelf is undone on the bench, and the other way round.
    await turn(shop, headerId, 'undo');
    await shop.must('turnShelfBack', { action: 'redo', step });
    await shop.must('turnShelfBack', { action: 'undo', step });
    await turn(shop, headerId, 'redo');
    expect([await states(shop, headerId), await onShelf(shop)]).toEqual([CUT, AFTER]);
  });

  test('on the shelf after later steps on the bench, as a step of its own that undo turns back', async () => {
    const { shop, headerId } = await shopWithPlan();
    const { step } = await shop.must('carryOutCutPlan', await planRequest(shop, headerId));
    const { revision } = await shop.must('readRevision', { headerId });
    const steps = [doStep({ kind: 'setHeader', set: { note: 'later' } })];
    await shop.must('commitSteps', { headerId, baseRevision: revision, steps });
    await shop.must('turnShelfBack', { action: 'undo', step });
    const opened = await shop.must('openHeader', { headerId });
    expect([await states(shop, headerId), opened.header.note]).toEqual([PLANNED, 'later']);
    expect(opened.undo.at(-1)?.label).toBe('taken back: cut by plan: 3 pieces');
    await turn(shop, headerId, 'undo');
    expect([await states(shop, headerId), await onShelf(shop)]).toEqual([CUT, AFTER]);
  });

  test('is refused on the shelf once a piece was tacked or changed, and nothing moves', async () => {
    const { shop, headerId } = await shopWithPlan();
    const { step } = await shop.must('carryOutCutPlan', await planRequest(shop, headerId));
    const { revision, header } = await shop.must('openHeader', { headerId });
    const [piece] = header.primaries[0]?.pieces ?? [];
    if (piece === undefined) throw new Error('no piece');
    const edit: Edit = { kind: 'replacePiece', primaryId: 'p1', piece: { ...piece, state: 'tacked' } };
    await shop.must('commitSteps', { headerId, baseRevision: revision, steps: [doStep(edit)] });
    expect(problemOf(await shop.call('turnShelfBack', { action: 'undo', step }))).toEqual({
      kind: 'piecesChangedSince',
      header: 'Bench four',
    });
    expect([await states(shop, headerId), await onShelf(shop)]).toEqual(['tacked cut cut', AFTER]);
  });

  test('is refused on the bench once a remnant was used, and nothing changes', async () => {
    const { shop, headerId } = await shopWithPlan();
    const { revision } = await shop.must('readRevision', { headerId });
    const steps = [doStep({ kind: 'removePiece', primaryId: 'p1', pieceId: 's3' })];
    await shop.must('commitSteps', { headerId, baseRevision: revision, steps });
    await shop.must('carryOutCutPlan', await planRequest(shop, headerId));
    // 48 - 20 - 20 - 1/8 = 7 7/8.
    expect(await onShelf(shop)).toEqual(['1 x 48', '1 x 7.875']);
    const { stock } = await shop.must('listStock', {});
    const remnant = stock.find(({ item }) => item.cutFrom === 'bar');
    const changes = [{ kind: 'move', itemId: remnant?.item.id ?? '', pieces: 1, reason: 'scrapped' }] as const;
    await shop.must('changeShelf', { changes: [...changes], because: '' });
    expect(problemOf(await turn(shop, headerId, 'undo'))?.kind).toBe('stockNotEnough');
    expect([await states(shop, headerId), await onShelf(shop)]).toEqual(['cut cut', ['1 x 48', '0 x 7.875']]);
  });

  test('is refused once the header is finished', async () => {
    const { shop, headerId } = await shopWithPlan();
    const { step } = await shop.must('carryOutCutPlan', await planRequest(shop, headerId));
    const { revision } = await shop.must('readRevision', { headerId });
    await shop.must('commitSteps', { headerId, baseRevision: revision, steps: [doStep({ kind: 'finishHeader' })] });
    expect(problemOf(await shop.call('turnShelfBack', { action: 'undo', step }))?.kind).toBe('finished');
    expect(await onShelf(shop)).toEqual(AFTER);
  });
});

describe('two headers cut together', () => {
  const twoHeaders = async () => {
    const { shop, headerId } = await shopWithPlan();
    const twin = await shop.must('duplicateHeader', { headerId, name: 'Right bank', as: 'again' });
    const { step } = await shop.must('carryOutCutPlan', await planRequest(shop, headerId, twin.header.id));
    return { shop, headerId, twinId: twin.header.id, step };
  };
  const both = async (shop: Shop, ...ids: readonly string[]) =>
    await Promise.all(ids.map((headerId) => states(shop, headerId)));

  test('are cut in one step, and each has the list', async () => {
    const { shop, headerId, twinId } = await twoHeaders();
    expect(await both(shop, headerId, twinId)).toEqual([CUT, CUT]);
    expect(await onShelf(shop)).toEqual(['0 x 48']);
    for (const id of [headerId, twinId])
      expect((await shop.must('listCutPlans', { headerId: id })).plans).toHaveLength(1);
  });

  test('are taken back together by undo on the bench of either, and on the shelf', async () => {
    const { shop, headerId, twinId, step } = await twoHeaders();
    for (const id of [headerId, twinId]) {
      expect((await turn(shop, id, 'undo')).ok).toBe(true);
      expect(await both(shop, headerId, twinId)).toEqual([PLANNED, PLANNED]);
      expect(await onShelf(shop)).toEqual(BEFORE);
      expect((await turn(shop, id, 'redo')).ok).toBe(true);
      expect(await both(shop, headerId, twinId)).toEqual([CUT, CUT]);
    }
    await shop.must('turnShelfBack', { action: 'undo', step });
    expect(await both(shop, headerId, twinId)).toEqual([PLANNED, PLANNED]);
  });

  test('are not taken back when a piece of the other was tacked, and nothing moves', async () => {
    const { shop, headerId, twinId } = await twoHeaders();
    const { revision, header } = await shop.must('openHeader', { headerId: twinId });
    const [piece] = header.primaries[0]?.pieces ?? [];
    if (piece === undefined) throw new Error('no piece');
    const edit: Edit = { kind: 'replacePiece', primaryId: 'p1', piece: { ...piece, state: 'tacked' } };
    await shop.must('commitSteps', { headerId: twinId, baseRevision: revision, steps: [doStep(edit)] });
    expect(problemOf(await turn(shop, headerId, 'undo'))).toEqual({ kind: 'piecesChangedSince', header: 'Right bank' });
    expect(await both(shop, headerId, twinId)).toEqual([CUT, 'tacked cut cut']);
    expect(await onShelf(shop)).toEqual(['0 x 48']);
  });
});

test('the two books agree after any plans, undos on either side, other steps and restarts', async () => {
  const act = fc.constantFrom('plan', 'undo', 'redo', 'shelfUndo', 'shelfRedo', 'note', 'piece', 'restart');
  await fc.assert(
    fc.asyncProperty(fc.array(act, { minLength: 4, maxLength: 20 }), async (acts) => {
      const made = await shopWithPlan();
      const { headerId } = made;
      let { shop } = made;
      for (const kind of acts) {
        if (kind === 'plan' && (await states(shop, headerId)).includes('planned')) {
          const asked = await planRequest(shop, headerId).catch(() => null);
          if (asked !== null) await shop.must('carryOutCutPlan', asked);
        } else if (kind === 'undo' || kind === 'redo') await turn(shop, headerId, kind);
        else if (kind === 'shelfUndo' || kind === 'shelfRedo') {
          const action = kind === 'shelfUndo' ? 'undo' : 'redo';
          const next = (await shop.must('readShelfHistory', {}))[action];
          if (next !== null) await shop.call('turnShelfBack', { action, step: next.step });
        } else if (kind === 'note' || kind === 'piece') {
          const { revision } = await shop.must('readRevision', { headerId });
          const edit: SingleEdit =
            kind === 'note'
              ? { kind: 'setHeader', set: { note: `n${revision}` } }
              : { kind: 'addPiece', primaryId: 'p1', piece: planned(`x${revision}`, 4), at: 0 };
          await shop.call('commitSteps', { headerId, baseRevision: revision, steps: [doStep(batchOf('x', [edit]))] });
        } else if (kind === 'restart') {
          await shop.close();
          shop = openShop(shop.folder);
        }
        // A piece is cut by a plan that stands, and by nothing else here.
        const { header } = await shop.must('openHeader', { headerId });
        const { plans } = await shop.must('listCutPlans', { headerId });
        const cut = plans.flatMap(({ kept }) => {
          const short = new Set(kept.plan.short);
          return kept.problem.pieces.map(({ id }) => id).filter((id) => !short.has(id));
        });
        const pieces = header.primaries.flatMap((primary) => primary.pieces);
        const isCut = pieces.filter(({ state }) => state === 'cut').map((piece) => cutPieceId(header, piece));
        expect([...isCut].sort()).toEqual(
          cut.filter((id) => pieces.some((piece) => cutPieceId(header, piece) === id)).sort(),
        );
      }
      await shop.close();
      expect(halvesAlone(shop.file)).toEqual([]);
    }),
    { numRuns: process.env['EVENRUN_LONG'] === '1' ? 500 : 25, seed: 1414 },
  );
}, 300_000);

/** Steps of the stock book that carried out or turned a plan, without their half in the header's journal; in plain SQL. */
function halvesAlone(file: string): readonly unknown[] {
  const sql = `SELECT s.place FROM shelf_steps AS s JOIN cut_plans AS p ON p.step = coalesce(s.of_place, s.place)
    WHERE NOT EXISTS (SELECT 1 FROM journal WHERE header_id = p.header_id AND step_id = s.id)`;
  return withDatabase(file, (db) => db.prepare(sql).all());
}
