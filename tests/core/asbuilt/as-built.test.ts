/** Readings of a finished tube against its pieces: each along its own way, apart only where both cannot be right. */

import { describe, expect, it } from 'vitest';
import { asBuilt } from '../../../core/asbuilt/as-built.ts';
import { describeMisEntry } from '../../../core/asbuilt/mis-entry/describe-mis-entry.ts';
import { findMisEntry } from '../../../core/asbuilt/mis-entry/find-mis-entry.ts';
import { boreAreaMm2, boreAreaWithin, lengthAlong } from '../../../core/asbuilt/path-lengths.ts';
import { applyEdit } from '../../../core/edits/apply-edit.ts';
import type { Header, Piece } from '../../../core/header/header.ts';
import type { Measurement } from '../../../core/header/measured.ts';
import { inches, millimetres } from '../../../core/units/length.ts';
import { expectWithin, expectWithinRelative } from '../../tolerance.ts';
import { bend, foundValue, headerOf, pieCut, primaryOf, straight } from '../path/made-primaries.ts';

const PIECES = [straight(100), bend(76.2, 90, 0), straight(150), pieCut(80, 60, 30, 4), straight(80)];
/** 1 3/4 in OD, 0.065 in wall: the bore is 1.62 in. */
const OD_MM = 44.45;
/** No tolerance at all, so that readings alone decide. */
const EXACT = { angleDeg: 0, clockingDeg: 0, length: millimetres(0) };

const withReadings = (measured: readonly Measurement[], pieces: readonly Piece[] = PIECES): Header =>
  headerOf([primaryOf(pieces, { measured })], { tolerances: EXACT });

const builtOf = (header: Header) => {
  const [primary] = header.primaries;
  if (primary === undefined) throw new Error('it has one');
  return asBuilt(header, primary);
};

describe('the way of each method', () => {
  const header = headerOf([primaryOf(PIECES)]);
  const [primary] = header.primaries;
  if (primary === undefined) throw new Error('it has one');

  it('of a string is the centreline: 100 + 76.2 pi/2 + 150 + 4 x 160 tan 7.5 + 80', () => {
    const byHandMm = 330 + (76.2 * Math.PI) / 2 + 4 * 2 * 80 * Math.tan((7.5 * Math.PI) / 180);
    expectWithin(lengthAlong(header, primary, 'centreline'), byHandMm, 1e-9);
    expectWithin(lengthAlong(header, primary, 'filling'), byHandMm, 1e-9);
  });

  it('of a tape is longer by half the OD times all that bends turn, and by the heels of pies', () => {
    const heelsMm = 4 * 2 * (80 + OD_MM / 2) * Math.tan((7.5 * Math.PI) / 180);
    expectWithin(lengthAlong(header, primary, 'outsideTape'), 330 + (76.2 + OD_MM / 2) * (Math.PI / 2) + heelsMm, 1e-9);
  });

  it('loses what welds shrink', () => {
    const shrunk = headerOf([primary], {}, { weldShrinkage: millimetres(0.5) });
    expectWithin(lengthAlong(shrunk, primary, 'centreline'), lengthAlong(header, primary, 'centreline') - 2, 1e-9);
  });

  it('of filling goes by the area of the bore: 1 m of 1 3/4 x 0.049 in, 1.652 in inside, holds 1.38286 l', () => {
    const tube = { material: '304', od: inches(1.75), wall: inches(0.049) };
    expectWithinRelative((boreAreaMm2(tube) * 1000) / 1e6, 1.38286, 5e-6);
    // OD within 0.25 mm and wall within 10 % (ASTM A269): 2 x hypot(0.25, 2 x 0.12446) / 41.961.
    expectWithinRelative(boreAreaWithin(tube), (2 * Math.hypot(0.25, 0.24892)) / 41.9608, 1e-5);
  });
});

describe('a reading', () => {
  const alongMm = (kind: 'outsideTape' | 'centreline') => {
    const header = headerOf([primaryOf(PIECES)]);
    return lengthAlong(header, header.primaries[0] as never, kind);
  };
  const tape = (offMm: number, withinMm = 2): Measurement => ({
    kind: 'outsideTape',
    length: millimetres(alongMm('outsideTape') + offMm),
    within: millimetres(withinMm),
  });

  it('agrees up to what it may be out by, and no further', () => {
    const verdictAt = (offMm: number) => builtOf(withReadings([tape(offMm)])).lengths[0]?.verdict;
    expect([0, 2, -2, 2.01, -2.01].map(verdictAt)).toEqual(['agrees', 'agrees', 'agrees', 'longer', 'shorter']);
  });

  it('may be further off where the pieces are made less exactly: 5 mm of three straights and 1 degree of two bends', () => {
    const tolerances = { angleDeg: 1, clockingDeg: 0, length: millimetres(5) };
    const header = { ...withReadings([tape(0)]), tolerances };
    const degree = Math.PI / 180;
    const bendMm = (76.2 + OD_MM / 2) * degree;
    const pieMm = ((80 + OD_MM / 2) * degree) / Math.cos(7.5 * degree) ** 2;
    expectWithin(builtOf(header).lengths[0]?.computedWithinMm ?? 0, Math.hypot(5, 5, 5, bendMm, pieMm), 1e-9);
  });

  it('with others gives one centreline, nearer to the surer', () => {
    const string: Measurement = {
      kind: 'centreline',
      length: millimetres(alongMm('centreline') + 4),
      within: millimetres(4),
    };
    const both = builtOf(withReadings([tape(0), string])).centreline;
    // 1/2^2 and 1/4^2 are four to one: a fifth of 4 mm.
    expectWithin((both?.lengthMm ?? 0) - alongMm('centreline'), 0.8, 1e-9);
    expectWithin(both?.withinMm ?? 0, 1 / Math.sqrt(1 / 4 + 1 / 16), 1e-9);
    expect(builtOf(withReadings([])).centreline).toBeNull();
    // A tape that does not agree would turn wrong bends into a wrong centreline.
    const astray = builtOf(withReadings([tape(30), string])).centreline;
    expectWithin((astray?.lengthMm ?? 0) - alongMm('centreline'), 4, 1e-9);
    expectWithin((builtOf(withReadings([tape(30)])).centreline?.lengthMm ?? 0) - alongMm('centreline'), 30, 1e-9);
  });
});

describe('the search', () => {
  const search = { clrsMm: [63.5, 76.2, 101.6], newId: 'new' };
  const find = (header: Header) => findMisEntry(header, header.primaries[0] as never, search);
  const tapeOf = (pieces: readonly Piece[], withinMm = 1): readonly Measurement[] => {
    const header = headerOf([primaryOf(pieces)]);
    const primary = header.primaries[0] as never;
    return [
      {
        kind: 'outsideTape',
        length: millimetres(lengthAlong(header, primary, 'outsideTape')),
        within: millimetres(withinMm),
      },
      {
        kind: 'centreline',
        length: millimetres(lengthAlong(header, primary, 'centreline')),
        within: millimetres(withinMm),
      },
    ];
  };

  it('says so when nothing was measured, and when all agrees', () => {
    expect(find(withReadings([]))).toEqual({ kind: 'notMeasured' });
    expect(find(withReadings(tapeOf(PIECES)))).toEqual({ kind: 'agrees' });
  });

  it('tells a bend from a straight by two ways of measuring alone, without an inlet', () => {
    const entered = PIECES.with(1, bend(76.2, 45, 0));
    const outcome = find(withReadings(tapeOf(PIECES), entered));
    if (outcome.kind !== 'explained') throw new Error(outcome.kind);
    expect(outcome.entries[0]).toMatchObject({ kind: 'angle', pieceIndex: 1, meant: { angleDeg: 90 } });
    expect(outcome.entries.every(({ kind }) => kind !== 'fraction' && kind !== 'unit')).toBe(true);
  });

  it('offers an edit that makes the readings agree', () => {
    const entered = PIECES.with(2, straight(15));
    const header = withReadings(tapeOf(PIECES), entered);
    const outcome = find(header);
    if (outcome.kind !== 'explained') throw new Error(outcome.kind);
    const [first] = outcome.entries;
    if (first === undefined) throw new Error('never empty');
    expect(builtOf(foundValue(applyEdit(header, first.edit)).header).lengths.map(({ verdict }) => verdict)).toEqual([
      'agrees',
      'agrees',
    ]);
  });

  it('shares sum to one at most, the likeliest first, and everything it names fits', () => {
    const outcome = find(withReadings(tapeOf(PIECES, 3), PIECES.with(0, straight(126))));
    if (outcome.kind !== 'explained') throw new Error(outcome.kind);
    const shares = outcome.entries.map(({ share }) => share);
    expect(shares).toEqual(shares.toSorted((a, b) => b - a));
    expect(shares.reduce((sum, share) => sum + share, 0)).toBeLessThanOrEqual(1 + 1e-9);
    expect(outcome.entries.every(({ chiSquared, chiSquaredLimit }) => chiSquared <= chiSquaredLimit)).toBe(true);
  });

  it('says none where nothing that could be slipped explains it', () => {
    const longer = tapeOf([...PIECES, straight(700)]);
    expect(find(withReadings(longer))).toEqual({ kind: 'none', off: 'length' });
  });

  it('says so when each reading agrees with the pieces but not with the other: there is no inlet to miss', () => {
    const apart = (offMm: number): readonly Measurement[] =>
      tapeOf(PIECES).map((reading) =>
        reading.kind === 'filling'
          ? reading
          : {
              ...reading,
              length: millimetres(reading.length.value + (reading.kind === 'outsideTape' ? offMm : -offMm)),
            },
      );
    // By the usual tolerances a reading of this tube may be several mm off; two that share its pieces may not be 6 mm apart.
    const header = headerOf([primaryOf(PIECES, { measured: apart(3) })]);
    expect(builtOf(header).lengths.map(({ verdict }) => verdict)).toEqual(['agrees', 'agrees']);
    expect(find(header)).toEqual({ kind: 'none', off: 'readings' });
  });

  it('is said with its figures', () => {
    const style = { kind: 'mm', places: 0 } as const;
    const said = (suspicion: object) =>
      describeMisEntry({ kind: 'angle', pieceIndex: 3, entered: null, meant: null, prior: 1, ...suspicion }, style);
    const [entered, meant] = [bend(76.2, 45, 0), bend(76.2, 90, 0)];
    expect(said({ entered, meant })).toBe('Piece 4: 90° rather than 45°');
    expect(said({ kind: 'clr', entered, meant: bend(101.6, 45, 0) })).toBe('Piece 4: CLR 102 mm rather than 76 mm');
    expect(said({ kind: 'twice', entered })).toBe('Piece 4 was entered twice, or is one too many');
    expect(said({ kind: 'missed', meant: straight(50) })).toBe('A straight of 50 mm was missed after piece 3');
    expect(said({ kind: 'missed', pieceIndex: 0, meant })).toBe(
      'A bend of 90°, CLR 76 mm, clocked 0° was missed before piece 1',
    );
    const slipped = { ...straight(2), length: inches(2.25) };
    const right = { ...slipped, length: inches(2.75) };
    expect(said({ kind: 'fraction', entered: slipped, meant: right })).toBe('Piece 4: 2 3/4" rather than 2 1/4"');
  });
});
