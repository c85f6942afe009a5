import { describe, expect, it } from 'vitest';
import { applyEdit } from '../../../core/edits/apply-edit.ts';
import type { Header, Primary } from '../../../core/header/header.ts';
import { matchHeader } from '../../../core/length/match-header.ts';
import { HeaderMoveSearch, suggestHeaderMoves } from '../../../core/moves/suggest-header-moves.ts';
import { millimetres } from '../../../core/units/length.ts';
import { bend, poseAt, primaryOf, straight, UP_Z } from '../path/made-primaries.ts';
import { fittedHeader } from './made-headers.ts';

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
    expect(matchHeader(applied.value.header).primaries.map(({ verdict }) => verdict)).toEqual([
      'inBand',
      'inBand',
      'inBand',
    ]);
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
    expect(matchHeader(applied.value.header).primaries.every(({ verdict }) => verdict === 'inBand')).toBe(true);
  });

  it('hold a mean still while all move to it', () => {
    const header = headerOf([uTube('1', 0), uTube('2', 10)], { kind: 'mean' });
    const outcome = suggestHeaderMoves(header);
    if (outcome.kind !== 'found') throw new Error(outcome.kind);
    expect(outcome.asItIs.after?.primaries.every(({ verdict }) => verdict === 'inBand')).toBe(true);
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
    const header = headerOf([bare('1'), bare('2'), bare('3')], { kind: 'typed', length: millimetres(300) });
    const outcome = suggestHeaderMoves(header);
    if (outcome.kind !== 'found') throw new Error(outcome.kind);
    const { asItIs } = outcome;
    expect(asItIs.unsolved).toEqual([]);
    const ids = (asItIs.edit?.edits ?? []).flatMap((edit) => (edit.kind === 'addPiece' ? [edit.piece.id] : []));
    expect(ids.length).toBeGreaterThanOrEqual(3);
    expect(new Set(ids).size).toBe(ids.length);
    expect(applyEdit(header, asItIs.edit as never).ok).toBe(true);
  });

  it('have nothing to do where all are in the band, and leave finished headers alone', () => {
    const header = headerOf([uTube('1', 0), uTube('2', 0.5)], { kind: 'longest' });
    expect(suggestHeaderMoves(header)).toEqual({ kind: 'none', reason: 'nothingToDo' });
    expect(suggestHeaderMoves({ ...header, state: 'finished' })).toEqual({ kind: 'none', reason: 'headerFinished' });
    expect(suggestHeaderMoves({ ...header, primaries: [] })).toEqual({ kind: 'none', reason: 'noTarget' });
  });

  it('are the same whether looked for at once or in slices, and can be left at any time', () => {
    const header = headerOf([uTube('1', 0), uTube('2', 9)], { kind: 'typed', length: millimetres(500) });
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
