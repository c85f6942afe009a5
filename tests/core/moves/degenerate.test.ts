import { describe, expect, it } from 'vitest';
import { applyEdit } from '../../../core/edits/apply-edit.ts';
import type { Header, Obstacle, Piece, Primary } from '../../../core/header/header.ts';
import { matchHeader } from '../../../core/length/match-header.ts';
import type { Move } from '../../../core/moves/move.ts';
import { gapsOf, neighboursOf } from '../../../core/moves/offer/neighbours.ts';
import type { MoveOutcome, NoMoveReason } from '../../../core/moves/outcome.ts';
import { MoveSearch, suggestMoves } from '../../../core/moves/suggest-moves.ts';
import { describeMove } from '../../../core/moves/words/describe-move.ts';
import {
  describeNearest,
  describeNoMoves,
  describeStanding,
  describeToFree,
} from '../../../core/moves/words/describe-outcome.ts';
import type { Vector } from '../../../core/path/vector.ts';
import { millimetres } from '../../../core/units/length.ts';
import { expectWithin } from '../../tolerance.ts';
import { ALONG_X, bend, primaryOf, seededRandom, straight } from '../path/made-primaries.ts';
import { faultsOf } from './check-move.ts';
import { FULL_SHELF } from './disturb.ts';
import { fittedHeader, lengthOf, MOVE_SETTINGS, shopPrimary } from './made-headers.ts';

function own(pieces: readonly Piece[], fields: Partial<Primary> = {}): Primary {
  return primaryOf(pieces, { id: 'own', name: '1', port: ALONG_X, ...fields });
}

/** A U that can be made longer at both legs. */
const U_PIECES = [straight(60), bend(76, 90, 0), straight(40), bend(76, 90, 0), straight(60)];

function reasonOf(outcome: MoveOutcome): NoMoveReason['kind'] {
  if (outcome.kind !== 'none') throw new Error(`not none but ${outcome.kind}`);
  return outcome.reason.kind;
}

function longer(primary: Primary, byMm: number, slipMm = 0): Header {
  return fittedHeader(primary, { targetMm: lengthOf(primary) + byMm, slipMm });
}

describe('headers without a move say why', () => {
  const locked = (piece: Piece): Piece => ({ ...piece, locked: true });
  const welded = (piece: Piece): Piece => ({ ...piece, state: 'welded' });
  const u = own(U_PIECES);

  it.each<[string, MoveOutcome, NoMoveReason['kind']]>([
    ['a primary that is not there', suggestMoves(longer(u, 10), 'other'), 'noSuchPrimary'],
    ['a finished header', suggestMoves({ ...longer(u, 10), state: 'finished' }, 'own'), 'headerFinished'],
    ['no pieces', suggestMoves({ ...longer(u, 10), primaries: [{ ...u, pieces: [] }] }, 'own'), 'noPieces'],
    ['nothing to take a target from', suggestMoves(targetless(u), 'own'), 'noTarget'],
    ['a primary that is right', suggestMoves(longer(u, 0), 'own'), 'nothingToDo'],
    ['one straight', suggestMoves(longer(own([straight(100)]), 10), 'own'), 'allInLine'],
    ['several straights in line', suggestMoves(longer(own([straight(100), straight(50)]), 10), 'own'), 'allInLine'],
    ['one bend', suggestMoves(longer(own([bend(76, 90, 0)]), 10), 'own'), 'outOfReach'],
    ['everything locked', suggestMoves(longer(own(U_PIECES.map(locked)), 10), 'own'), 'allHeld'],
    ['everything welded', suggestMoves(longer(own(U_PIECES.map(welded)), 10), 'own'), 'allHeld'],
    ['a piece that cannot be', suggestMoves(broken(u), 'own'), 'impossiblePiece'],
    ['too few joints allowed', suggestMoves(longer(u, 10), 'own', { maxJoints: 1 }), 'tooManyJoints'],
    ['a target out of reach', suggestMoves(longer(own([straight(60), bend(76, 30, 0)]), 500), 'own'), 'outOfReach'],
  ])('%s', (_, outcome, kind) => {
    expect(reasonOf(outcome)).toBe(kind);
    if (outcome.kind !== 'none') return;
    expect(describeNoMoves(outcome.reason, MOVE_SETTINGS.display)).toMatch(/^[A-Z].*[.]$/);
    if (outcome.nearest !== null) expect(describeNearest(outcome.nearest, MOVE_SETTINGS.display)).not.toContain('NaN');
  });

  function targetless(primary: Primary): Header {
    const header = longer(primary, 10);
    const empty = { ...primary, id: 'empty', pieces: [] };
    const target = { kind: 'primary', primaryId: 'empty' } as const;
    return { ...header, primaries: [...header.primaries, empty], settings: { ...header.settings, target } };
  }

  function broken(primary: Primary): Header {
    const pieces = primary.pieces.with(1, { ...bend(76, 270, 0), kind: 'pieCut', pies: 1 });
    const header = longer(primary, 10);
    return { ...header, primaries: [{ ...primary, inletId: 'inlet', pieces }] };
  }

  it('bends of next to no angle and zero straights are no trouble', () => {
    const pieces = [straight(0), bend(76, 1e-6, 0), straight(0), bend(76, 1e-6, 0), straight(0)];
    // Bends of nothing bend nothing, so this is a straight tube with one length, whatever is let in.
    expect(reasonOf(suggestMoves(longer(own(pieces), 10), 'own', { kinds: ['straights'] }))).toBe('outOfReach');
    // With real bends around them they are in nobody's way.
    const among = own([...U_PIECES.slice(0, 3), ...pieces, ...U_PIECES.slice(3)]);
    const header = longer(among, 10);
    const outcome = suggestMoves(header, 'own');
    if (outcome.kind !== 'found') throw new Error(outcome.kind);
    for (const move of outcome.moves) expect(faultsOf(header, move, {})).toEqual([]);
  });

  it('a closure of zero tolerance finds what is exact', () => {
    const wide = longer(own(U_PIECES), 10);
    const header = { ...wide, settings: { ...wide.settings, closure: { gap: millimetres(0), tiltDeg: 0 } } };
    const outcome = suggestMoves(header, 'own', { kinds: ['straights'] });
    if (outcome.kind !== 'found') throw new Error(outcome.kind);
    expectWithin(outcome.moves[0]?.closureAfter?.gapMm ?? 99, 0, 2e-6);
  });
});

describe('what would have to be freed', () => {
  it('is the tack that is one too many', () => {
    const outcome = suggestMoves(longer(own(U_PIECES), 10), 'own', { maxJoints: 1 });
    if (outcome.kind !== 'none' || outcome.toFree === null) throw new Error(outcome.kind);
    expect(outcome.toFree.lockedPieces).toEqual([]);
    expect(outcome.toFree.tackedJoints.length).toBeGreaterThan(1);
    expect(describeToFree(outcome.toFree)).toMatch(/^Break the tack .* there is a move[.]$/);
  });

  it('is as few locked pieces as a move needs, and freeing them gives one', () => {
    let tried = 0;
    for (let seed = 1; seed <= 40; seed += 1) {
      const random = seededRandom(seed * 999);
      const primary = shopPrimary({ pieces: 7, random, lockedPart: 0.7 });
      const header = longer(primary, 9, 3);
      const outcome = suggestMoves(header, 'own');
      if (outcome.kind !== 'none' || outcome.toFree === null) continue;
      tried += 1;
      const freed = outcome.toFree.lockedPieces;
      expect(freed.length).toBeGreaterThan(0);
      const pieces = primary.pieces.map((piece, index) =>
        freed.includes(index) ? { ...piece, locked: false } : piece,
      );
      const again = suggestMoves(longer({ ...primary, pieces }, 9, 3), 'own');
      expect(again.kind, `seed ${seed}`).toBe('found');
      expect(describeToFree(outcome.toFree)).toMatch(/^Unlock piece /);
    }
    expect(tried).toBeGreaterThan(5);
  });
});

describe('a closure that is broken already', () => {
  const u = own(U_PIECES);
  const off = own(U_PIECES.with(4, straight(75)));
  const header = fittedHeader(off, { targetMm: lengthOf(u), fitted: u });

  it('is said first, and mended with the length', () => {
    const outcome = suggestMoves(header, 'own');
    if (outcome.kind !== 'found') throw new Error(outcome.kind);
    expect(outcome.before.isClosed).toBe(false);
    expect(describeStanding(outcome.before, MOVE_SETTINGS.display)).toContain('misses its inlet by 15.0 mm');
    expectWithin(outcome.moves[0]?.closureAfter?.gapMm ?? 99, 0, 0.5);
    expect(faultsOf(header, outcome.moves[0] ?? never(), {})).toEqual([]);
  });

  it('is left as it is where the primary has no inlet: the end stays where it is now', () => {
    const noInlet = { ...header, primaries: header.primaries.map((primary) => ({ ...primary, inletId: null })) };
    const longerStill = {
      ...noInlet,
      settings: {
        ...noInlet.settings,
        target: { kind: 'typed', length: millimetres(lengthOf(off) + 10) } as const,
      },
    };
    const outcome = suggestMoves(longerStill, 'own');
    if (outcome.kind !== 'found') throw new Error(outcome.kind);
    expect(outcome.before.endReference).toBe('presentEnd');
    for (const move of outcome.moves) expect(faultsOf(longerStill, move, {})).toEqual([]);
  });

  function never(): never {
    throw new Error('no move');
  }
});

describe('where clockings are not recorded', () => {
  const primary = own([straight(60), bend(76, 90, 0), straight(40), bend(76, 90, null), straight(60)]);
  const header: Header = {
    ...fittedHeader(own(U_PIECES), { targetMm: lengthOf(primary) + 10 }),
    primaries: [{ ...primary, inletId: 'inlet' }],
  };

  it('moves are on length alone and say how far the end shifts at most', () => {
    const outcome = suggestMoves(header, 'own');
    if (outcome.kind !== 'found') throw new Error(outcome.kind);
    expect(outcome.before.endReference).toBe('none');
    expect(describeStanding(outcome.before, MOVE_SETTINGS.display)).toContain("The end's place is not known");
    for (const move of outcome.moves) {
      expect(move.kind).toBe('lengthOnly');
      expectWithin(move.endShiftAtMostMm ?? 0, 10, 0.5);
      expect(describeMove(move, header)).toContain('; the end shifts by 10.0 mm at most');
    }
  });
});

describe('a search in slices', () => {
  const primary = shopPrimary({ pieces: 14, random: seededRandom(3) });
  const header = longer(primary, 9);

  it('comes to the same as one at once', () => {
    const search = new MoveSearch(header, 'own');
    let slices = 0;
    while (!search.look(() => true)) slices += 1;
    expect(slices).toBeGreaterThan(20);
    expect(search.soFar()).toEqual(suggestMoves(header, 'own'));
  });

  it('gives the same wound up or not, and looks on afterwards as if it had not been left', () => {
    const [wound, plain] = [new MoveSearch(header, 'own'), new MoveSearch(header, 'own')];
    let steps = 0;
    for (let slice = 0; !wound.look(() => true); slice += 1) {
      plain.look(() => true);
      if (slice % 50 !== 0) continue;
      while (!wound.windUp(() => true)) steps += 1;
      expect(wound.soFar()).toEqual(plain.soFar());
    }
    expect(steps).toBeGreaterThan(0);
    expect(wound.windUp(() => true)).toBe(true);
    expect(wound.soFar()).toEqual(suggestMoves(header, 'own'));
  });

  it('gives what it has at any time, sound and marked as not exhausted', () => {
    const search = new MoveSearch(header, 'own');
    let found = 0;
    for (let slice = 0; !search.look(() => true); slice += 1) {
      if (slice % 50 !== 0) continue;
      const outcome = search.soFar();
      if (outcome.kind === 'none') {
        expect(outcome.reason.kind).toBe('notThrough');
        continue;
      }
      found += 1;
      expect(outcome.isExhausted).toBe(false);
      for (const move of outcome.moves) expect(faultsOf(header, move, {})).toEqual([]);
    }
    expect(found).toBeGreaterThan(0);
  });
});

describe('a welded group', () => {
  it('turns as a whole at a tacked joint, and nothing of it is cut', () => {
    const welded = (piece: Piece): Piece => ({ ...piece, state: 'welded' });
    const pieces = [
      straight(60),
      bend(76, 60, 0),
      straight(50),
      welded(bend(76, 45, 40)),
      welded(straight(40)),
      welded(bend(76, 45, 90)),
      straight(70),
    ];
    const fitted = own(pieces);
    // The group was tacked 12 degrees off.
    const off = own(pieces.with(3, { ...(pieces[3] as Piece), clockingDeg: 52 } as Piece));
    const header = fittedHeader(off, { targetMm: lengthOf(fitted), fitted });
    const outcome = suggestMoves(header, 'own');
    if (outcome.kind !== 'found') throw new Error(outcome.kind);
    const [move] = outcome.moves;
    expect(move?.changes).toEqual([{ kind: 'clocking', pieceIndex: 3, fromDeg: 52, toDeg: 40 }]);
    expect(describeMove(move as Move, header)).toBe('Turn bend 4 and what is welded to it from 52° to 40°');
    expect(faultsOf(header, move as Move, {})).toEqual([]);
    const applied = applyEdit(header, (move as Move).edit);
    if (!applied.ok) throw new Error('refused');
    expect(applied.value.header.primaries[0]?.pieces[3]?.state).toBe('welded');
  });
});

describe('a kick', () => {
  it('makes one long straight longer and moves nothing else', () => {
    const primary = own([straight(30), bend(76, 90, 0), straight(300), bend(76, 90, 180), straight(30)]);
    const header = longer(primary, 12);
    const outcome = suggestMoves(header, 'own', { kinds: ['kick'] });
    if (outcome.kind !== 'found') throw new Error(outcome.kind);
    const [move] = outcome.moves;
    expect(move?.kind).toBe('kick');
    expect(move?.changes).toHaveLength(1);
    for (const one of outcome.moves) expect(faultsOf(header, one, {})).toEqual([]);
    expect(describeMove(outcome.moves[0] as never, header)).toMatch(/^Kick straight 3: /);
    const applied = applyEdit(header, outcome.moves[0]?.edit as never);
    if (!applied.ok) throw new Error('refused');
    expect(matchHeader(applied.value.header).primaries[0]?.side).toBe('inBand');
  });
});

describe('a pair of bends let in', () => {
  it('mends an end that lies to the side', () => {
    const fitted = own([straight(80), bend(76, 60, 0), straight(120), bend(76, 60, 90), straight(90)]);
    const header = fittedHeader(fitted, { targetMm: lengthOf(fitted) + 15, slipMm: 3 });
    const outcome = suggestMoves(header, 'own', { kinds: ['bendPair'], stock: FULL_SHELF });
    if (outcome.kind !== 'found') throw new Error(outcome.kind);
    for (const move of outcome.moves) {
      expect(move.kind).toBe('bendPair');
      expect(faultsOf(header, move, { stock: FULL_SHELF })).toEqual([]);
      expect(move.cost.stockNeeded.filter(({ kind }) => kind === 'bend')).toHaveLength(2);
    }
  });
});

describe('clearance', () => {
  const plane = (id: string, at: { x?: number; z?: number }, normal: Vector): Obstacle => ({
    kind: 'plane',
    id,
    name: id,
    at: { x: millimetres(at.x ?? 0), y: millimetres(0), z: millimetres(at.z ?? 0) },
    normal,
  });
  const wall = plane('wall', { x: 165 }, { x: -1, y: 0, z: 0 });
  /** Half a millimetre under the tube, which lies level. */
  const floor = plane('floor', { z: -(1.75 * 25.4) / 2 - 0.5 }, { x: 0, y: 0, z: 1 });
  const beside = (obstacles: readonly Obstacle[]): Header => ({ ...longer(own(U_PIECES), 10), obstacles });
  const free = suggestMoves(beside([wall]), 'own', { kinds: ['straights'] });
  const nearestMm = free.kind === 'found' ? (free.moves[0]?.clearanceAfterMm ?? 0) : Number.NaN;

  it('moves that come too near are left out, and the outcome says so', () => {
    if (free.kind !== 'found') throw new Error(free.kind);
    expect(nearestMm).toBeLessThan(free.moves[0]?.clearanceBeforeMm ?? 0);
    const kept = suggestMoves(beside([wall]), 'own', { kinds: ['straights'], clearanceKeptMm: nearestMm + 1 });
    expect(reasonOf(kept)).toBe('tooTight');
  });

  it('that is tight already somewhere excuses nothing elsewhere', () => {
    const options = { kinds: ['straights'], clearanceKeptMm: nearestMm + 1 } as const;
    expect(reasonOf(suggestMoves(beside([floor, wall]), 'own', options))).toBe('tooTight');
    // Beside the floor alone nothing comes nearer than it was, and all is well.
    expect(suggestMoves(beside([floor]), 'own', options).kind).toBe('found');
  });

  it.each([32, 41, 56, 59, 89])('is looked at for every candidate, not for the cheapest few (seed %i)', (seed) => {
    const primary = shopPrimary({ pieces: 8, random: seededRandom(seed * 31) });
    const base = longer(primary, 10, 6);
    const above = (mm: number): Header => ({ ...base, obstacles: [plane('lid', { z: mm }, { x: 0, y: 0, z: -1 })] });
    const far = above(1000);
    const roomMm = gapsOf(neighboursOf(far, 'own', 6), far.primaries[0] as Primary)?.get('obstacle lid') ?? Number.NaN;
    // A lid 7 mm above the tube: the six cheapest moves all come nearer to it than is kept.
    const header = above(1000 - roomMm + 7);
    const free = suggestMoves(header, 'own');
    const cheapest = free.kind === 'found' ? free.moves : [];
    expect(cheapest).toHaveLength(6);
    expect(cheapest.filter(({ clearanceAfterMm }) => (clearanceAfterMm ?? 0) >= 6.5)).toEqual([]);
    const kept = suggestMoves(header, 'own', { clearanceKeptMm: 6.5, maxMoves: 1 });
    if (kept.kind !== 'found') throw new Error(kept.kind);
    expect(kept.moves[0]?.clearanceAfterMm ?? 0).toBeGreaterThanOrEqual(6.5 - 1e-6);
    expect(faultsOf(header, kept.moves[0] as Move, {})).toEqual([]);
  });
});
