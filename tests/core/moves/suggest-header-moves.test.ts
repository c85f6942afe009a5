import { describe, expect, it } from 'vitest';
import { applyEdit } from '../../../core/edits/apply-edit.ts';
import type { Header, Pose, Primary, Straight } from '../../../core/header/header.ts';
import { matchHeader } from '../../../core/length/match-header.ts';
import { HeaderMoveSearch, suggestHeaderMoves } from '../../../core/moves/suggest-header-moves.ts';
import { poseOfFrame } from '../../../core/path/frame.ts';
import { tracePrimary } from '../../../core/path/trace-primary.ts';
import { millimetres } from '../../../core/units/length.ts';
import { endByMatrices, type MatrixFrame } from '../../references/path-matrices.ts';
import { bend, foundValue, poseAt, primaryOf, straight, UP_Z } from '../path/made-primaries.ts';
import { fittedHeader, lengthOf } from './made-headers.ts';

/** A U whose last leg slips into a collector: `extraMm` longer at both legs. */
function uTube(id: string, extraMm: number): Primary {
  const pieces = [straight(60 + extraMm), bend(76, 90, 0), straight(40), bend(76, 90, 0), straight(60 + extraMm)].map(
    (piece, index) => ({ ...piece, id: `${id}-${index}` }),
  );
  const at = { x: 0, y: 100 * Number(id), z: 0 };
  return primaryOf(pieces, { id, name: id, port: poseAt(at, { x: 1, y: 0, z: 0 }, UP_Z) });
}

function headerOf(primaries: readonly Primary[], target: Header['settings']['target']): Header {
  const [first] = primaries;
  if (first === undefined) throw new Error('No primary');
  const base = fittedHeader(first, { targetMm: 100 });
  return { ...base, primaries, collectors: [], settings: { ...base.settings, target } };
}

describe('moves on a whole header', () => {
  it('bring all primaries into the band at once', () => {
    const header = headerOf([uTube('1', 0), uTube('2', 5), uTube('3', 9)], { kind: 'longest' });
    const outcome = suggestHeaderMoves(header);
    if (outcome.kind !== 'found') throw new Error(outcome.kind);
    const { asItIs } = outcome;
    expect(asItIs.unsolved).toEqual([]);
    expect(asItIs.primaries).toHaveLength(2);
    const applied = applyEdit(header, asItIs.edit as never);
    if (!applied.ok) throw new Error('refused');
    expect(matchHeader(applied.value.header).primaries.map(({ side }) => side)).toEqual(['inBand', 'inBand', 'inBand']);
  });

  it('say when moving the target is cheaper than mending three runners', () => {
    const header = headerOf([uTube('1', 0), uTube('2', 0), uTube('3', 0.5), uTube('4', 9)], { kind: 'longest' });
    const outcome = suggestHeaderMoves(header);
    if (outcome.kind !== 'found' || outcome.cheaper === null) throw new Error(outcome.kind);
    expect(outcome.asItIs.primaries).toHaveLength(3);
    expect(outcome.cheaper.primaries.map(({ primaryId }) => primaryId)).toEqual(['4']);
    expect(outcome.cheaper.jointsMade).toBeLessThan(outcome.asItIs.jointsMade);
    const applied = applyEdit(header, outcome.cheaper.edit as never);
    if (!applied.ok) throw new Error('refused');
    expect(matchHeader(applied.value.header).primaries.every(({ side }) => side === 'inBand')).toBe(true);
  });

  it('hold a mean still while all move to it', () => {
    const header = headerOf([uTube('1', 0), uTube('2', 10)], { kind: 'mean' });
    const outcome = suggestHeaderMoves(header);
    if (outcome.kind !== 'found') throw new Error(outcome.kind);
    expect(outcome.asItIs.after?.primaries.every(({ side }) => side === 'inBand')).toBe(true);
  });

  it('give the pieces let in different ids across primaries', () => {
    // Two bends next to each other and nothing else: whatever mends these tubes has to be let in.
    const bare = (id: string) => {
      const pieces = [bend(76, 90, 0), bend(76, 90, 0)].map((piece, index) => ({ ...piece, id: `${id}-${index}` }));
      return primaryOf(pieces, {
        id,
        name: id,
        port: poseAt({ x: 0, y: 300 * Number(id), z: 0 }, { x: 1, y: 0, z: 0 }, UP_Z),
      });
    };
    const header = headerOf([bare('1'), bare('2'), bare('3')], { kind: 'typed', length: millimetres(262) });
    const outcome = suggestHeaderMoves(header);
    if (outcome.kind !== 'found') throw new Error(outcome.kind);
    const { asItIs } = outcome;
    expect(asItIs.unsolved).toEqual([]);
    const ids = (asItIs.edit?.edits ?? []).flatMap((edit) => (edit.kind === 'addPiece' ? [edit.piece.id] : []));
    expect(ids.length).toBeGreaterThanOrEqual(3);
    expect(new Set(ids).size).toBe(ids.length);
    expect(applyEdit(header, asItIs.edit as never).ok).toBe(true);
  });

  it('leave alone what is still being built, and what has no pieces', () => {
    const begun = primaryOf([straight(60)], { id: '3', name: '3' });
    const header = headerOf([uTube('1', 0), uTube('2', 5), begun], { kind: 'longest' });
    const outcome = suggestHeaderMoves(header);
    if (outcome.kind !== 'found') throw new Error(outcome.kind);
    expect(outcome.plans.flatMap(({ primaries }) => primaries.map(({ primaryId }) => primaryId))).not.toContain('3');
  });

  it('follow each other: what ends at the end of another is closed again after it', () => {
    // The leader can only grow at its last straight, and so goes 5 mm deeper; the follower ends where it ends.
    const leader = uTube('1', 0);
    const lastOnly = leader.pieces.map((piece, index) => ({ ...piece, locked: index < 4 }));
    const port = poseAt({ x: -30, y: 100, z: 0 }, { x: 1, y: 0, z: 0 }, UP_Z);
    const follower = { ...uTube('2', 0), port };
    const longer = follower.pieces.with(0, { ...(follower.pieces[0] as Straight), length: millimetres(90) });
    const base = headerOf([leader], { kind: 'typed', length: millimetres(lengthOf(leader) + 5) });
    const end = foundValue(tracePrimary(leader, leader.port)).end;
    const [none, deep] = [millimetres(0), millimetres(40)];
    const header: Header = {
      ...base,
      settings: { ...base.settings, tolerance: { minus: millimetres(1), plus: millimetres(28) } },
      primaries: [
        { ...follower, pieces: longer, inletId: 'follows' },
        { ...leader, pieces: lastOnly, inletId: 'inlet' },
      ],
      collectors: [
        {
          id: 'c',
          name: 'c',
          inlets: [
            {
              id: 'inlet',
              name: 'a',
              place: { kind: 'pose', pose: poseOfFrame(end, 'mm') },
              slip: { deeper: deep, shallower: none },
            },
            {
              id: 'follows',
              name: 'b',
              place: { kind: 'endOf', primaryId: '1' },
              slip: { deeper: none, shallower: none },
            },
          ],
        },
      ],
    };
    const outcome = suggestHeaderMoves(header);
    if (outcome.kind !== 'found') throw new Error(outcome.kind);
    const { asItIs } = outcome;
    expect(asItIs.primaries.map(({ primaryId }) => primaryId)).toEqual(['1', '2']);
    expect(asItIs.unsolved).toEqual([]);
    const applied = applyEdit(header, asItIs.edit as never);
    if (!applied.ok) throw new Error('refused');
    const [after, led] = applied.value.header.primaries as [Primary, Primary];
    const ends = [after, led].map(({ pieces, port: from }) => endByMatrices(pieces, from as Pose));
    expect(ends[1]?.point.distanceTo(endByMatrices(leader.pieces, leader.port as Pose).point)).toBeGreaterThan(3);
    expect(ends[0]?.point.distanceTo((ends[1] as MatrixFrame).point)).toBeLessThan(0.5 + 1e-6);
  });

  it('try the edges of every band: a target that needs no work at all is found', () => {
    const long = { kind: 'typed', length: millimetres(442) } as const;
    const tubes = [442.8, 447.8, 447.8].map((mm, index) => {
      const tube = uTube(String(index + 1), 0);
      const first = tube.pieces[0] as Straight;
      const by = mm - lengthOf(tube);
      return { ...tube, pieces: tube.pieces.with(0, { ...first, length: millimetres(60 + by) }) };
    });
    const base = headerOf(tubes, long);
    const eighth = { value: 1 / 8, unit: 'in' } as const;
    const header = { ...base, settings: { ...base.settings, tolerance: { minus: eighth, plus: eighth } } };
    const outcome = suggestHeaderMoves(header);
    if (outcome.kind !== 'found' || outcome.cheaper === null) throw new Error('no cheaper target');
    expect(outcome.asItIs.newCuts).toBeGreaterThan(0);
    expect([outcome.cheaper.jointsMade, outcome.cheaper.newCuts, outcome.cheaper.primaries]).toEqual([0, 0, []]);
    const applied = applyEdit(header, outcome.cheaper.edit as never);
    if (!applied.ok) throw new Error('refused');
    expect(matchHeader(applied.value.header).primaries.every(({ side }) => side === 'inBand')).toBe(true);
  });

  it('have nothing to do where all are in the band, and leave finished headers alone', () => {
    const header = headerOf([uTube('1', 0), uTube('2', 0.5)], { kind: 'longest' });
    expect(suggestHeaderMoves(header)).toEqual({ kind: 'none', reason: 'nothingToDo' });
    expect(suggestHeaderMoves({ ...header, state: 'finished' })).toEqual({ kind: 'none', reason: 'headerFinished' });
    expect(suggestHeaderMoves({ ...header, primaries: [] })).toEqual({ kind: 'none', reason: 'noTarget' });
  });

  it('are the same whether looked for at once or in slices, and can be left at any time', () => {
    const header = headerOf([uTube('1', 0), uTube('2', 9)], { kind: 'typed', length: millimetres(440) });
    const search = new HeaderMoveSearch(header);
    let slices = 0;
    while (!search.look(() => true)) {
      const outcome = search.soFar();
      if (outcome.kind === 'found') expect(outcome.isExhausted).toBe(false);
      else expect(outcome.reason).toBe('notThrough');
      slices += 1;
    }
    expect(slices).toBeGreaterThan(10);
    expect(search.soFar()).toEqual(suggestHeaderMoves(header));
  });
});
