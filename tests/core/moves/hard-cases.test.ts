/** Single cases that were once got wrong, told as explicit pieces. */

import { describe, expect, it } from 'vitest';
import { MoveSearch, suggestMoves } from '../../../core/moves/suggest-moves.ts';
import { ALONG_X, bend, primaryOf, straight } from '../path/made-primaries.ts';
import { faultsOf } from './check-move.ts';
import { shelfOf } from './freedoms.ts';
import { fittedHeader, lengthOf } from './made-headers.ts';
import { piecesInShort } from './pieces-in-short.ts';

function own(pieces: Parameters<typeof primaryOf>[0]) {
  return primaryOf(pieces, { id: 'own', port: ALONG_X });
}

describe('a primary that takes five changes and more', () => {
  it.each([['inches', 'B3/30/175 B3/90/-165 S2.125 B2/13/-50 B3/45/-140 S5.5', 'in', -38.1]] as const)(
    'is not called out of reach (%s: %s)',
    (_, text, unit, byMm) => {
      const primary = own(piecesInShort(text, { unit, state: 'planned' }));
      const header = fittedHeader(primary, { targetMm: lengthOf(primary) + byMm });
      const outcome = suggestMoves(header, 'own');
      if (outcome.kind !== 'found') throw new Error(outcome.kind);
      expect(outcome.moves.flatMap((move) => faultsOf(header, move, {}))).toEqual([]);
    },
  );
});

describe('the worst kinds of question', () => {
  const inLine = own(
    piecesInShort(`${Array.from({ length: 23 }, () => 'S50').join(' ')} B76/90/0`, { unit: 'mm', state: 'planned' }),
  );
  const all180 = own(
    piecesInShort(Array.from({ length: 12 }, (_, i) => `S40 B60/180/${(i * 50) % 360}`).join(' '), {
      unit: 'mm',
      state: 'planned',
    }),
  );

  it.each([
    ['23 straights in line and a bend', inLine],
    ['twelve bends of 180', all180],
  ])('%s: pauses often, and at any pause gives what it has', (_, primary) => {
    const header = fittedHeader(primary, { targetMm: lengthOf(primary) + 30 });
    const search = new MoveSearch(header, 'own', { stock: shelfOf(12) });
    let longestMs = 0;
    const begunMs = performance.now();
    for (let lastMs = begunMs; lastMs - begunMs < 3000 && !search.look(() => true); ) {
      const nowMs = performance.now();
      longestMs = Math.max(longestMs, nowMs - lastMs);
      lastMs = nowMs;
    }
    // A busy machine may hold up any one pause; without slices the first alone would take seconds.
    expect(longestMs).toBeLessThan(1000);
    const outcome = search.soFar();
    for (const move of outcome.kind === 'found' ? outcome.moves : []) expect(faultsOf(header, move, {})).toEqual([]);
  });
});

describe('what costs least', () => {
  it('is three straights changed by 5/16 in of tube rather than a kick of three new bends', () => {
    const primary = own([straight(90), bend(76, 90, 0), straight(200), bend(76, 90, 0), straight(90)]);
    const header = fittedHeader(primary, { targetMm: lengthOf(primary) + 8 });
    const outcome = suggestMoves(header, 'own', { maxMoves: 8 });
    if (outcome.kind !== 'found') throw new Error(outcome.kind);
    const bends = outcome.moves.map(({ cost }) => cost.bendsAdded);
    expect(bends).toEqual([...bends].sort((a, b) => a - b));
    expect(outcome.moves[0]?.kind).toBe('straights');
  });
});

describe('a kick ahead of a welded bend', () => {
  const text = 'S40w B76/90/0w S300t B76/60/30w S80w';
  const primary = own(piecesInShort(text, { unit: 'mm' }));
  const header = fittedHeader(primary, { targetMm: lengthOf(primary) + 10 });

  it('is offered, and leaves the bend as it lies', () => {
    const outcome = suggestMoves(header, 'own');
    if (outcome.kind !== 'found') throw new Error(outcome.kind);
    expect(outcome.moves.map(({ kind }) => kind)).toContain('kick');
    expect(outcome.moves.flatMap((move) => faultsOf(header, move, {}))).toEqual([]);
  });

  it('is not where the bend is locked', () => {
    const locked = own(piecesInShort(text.replace('B76/60/30w', 'B76/60/30w!'), { unit: 'mm' }));
    const outcome = suggestMoves(fittedHeader(locked, { targetMm: lengthOf(locked) + 10 }), 'own');
    expect(outcome.kind).toBe('none');
  });
});
