/** What would finish a primary, and which lengths there are at all. */

import { describe, expect, it } from 'vitest';
import type { Inlet, Piece } from '../../../core/header/header.ts';
import { pieceFromQuick } from '../../../core/header/parts/quick-entry.ts';
import { searchThrough } from '../../../core/moves/search-in-slices.ts';
import { closureOf, isClosed } from '../../../core/path/ends/closure.ts';
import { closureLimits, findInlet, primaryClosure } from '../../../core/path/ends/inlet-pose.ts';
import { tracePrimary } from '../../../core/path/trace-primary.ts';
import { addScaled, squareTo, unit } from '../../../core/path/vector.ts';
import { finishPrimary } from '../../../core/propose/finish-primary.ts';
import { proposePrimaries } from '../../../core/propose/propose-primaries.ts';
import { ReachSearch } from '../../../core/propose/reach/reachable-lengths.ts';
import { toGoWords } from '../../../core/propose/to-go-words.ts';
import { radiansOf } from '../../../core/units/angle.ts';
import { inches, mmOf } from '../../../core/units/length.ts';
import { expectWithin } from '../../tolerance.ts';
import {
  ALONG_X,
  bend,
  foundValue,
  poseAt,
  primaryOf,
  randomDirection,
  seededRandom,
  straight,
  UP_Z,
} from '../path/made-primaries.ts';
import { CLRS, frameOf, headerWith } from './made-poses.ts';

/** Where these pieces end, from the port along x. */
function endOf(pieces: Parameters<typeof primaryOf>[0]) {
  const { point, tangent, normal } = foundValue(tracePrimary(primaryOf(pieces), ALONG_X)).end;
  return poseAt(point, tangent, normal);
}

const BEGUN = [straight(60), bend(76.2, 60, -30)];

describe('what would finish a primary', () => {
  it.each([
    ['a straight', [straight(4 * 25.4)]],
    ['a bend', [bend(76.2, 45, 70)]],
    ['a straight and a bend', [straight(2 * 25.4), bend(76.2, 30, -50)]],
    ['a bend and a straight', [bend(76.2, 90, 120), straight(3.5 * 25.4)]],
  ] as const)('is %s where that is what is missing', (_, rest) => {
    const header = headerWith({ port: ALONG_X, inlet: endOf([...BEGUN, ...rest]) }, { pieces: BEGUN });
    const finish = finishPrimary(header, 'own', null);
    const sizes = (pieces: readonly { readonly kind: string }[]) =>
      pieces.map((piece) => {
        const one = piece as (typeof rest)[number];
        return one.kind === 'straight' ? [mmOf(one.length)] : [mmOf(one.clr), one.angleDeg, one.clockingDeg];
      });
    const found = sizes(finish?.pieces ?? []).flat();
    const wanted = sizes(rest).flat();
    expect(found).toHaveLength(wanted.length);
    for (const [i, figure] of wanted.entries()) expectWithin(found[i] ?? Number.NaN, figure ?? Number.NaN, 1e-6);
  });

  it.each([
    ['a straight', 's', 0],
    ['a bend', 'b', 0],
    ['a straight and a bend', 'sb', 0],
    ['a bend and a straight', 'bs', 0],
    ['a straight, and the slip', 's', 20],
    ['a bend, and the slip', 'b', 20],
    ['a straight and a bend, and the slip', 'sb', 20],
    ['a bend and a straight, and the slip', 'bs', 20],
  ])('is found where %s would end beside the inlet, but within the closure', (_, kinds, slipMm) => {
    const random = seededRandom(1606);
    for (let i = 0; i < 25; i += 1) {
      const rest = [...kinds].map((kind) =>
        kind === 's'
          ? straight(((10 + Math.round(50 * random())) * 25.4) / 16)
          : bend(76.2, 10 + Math.round(320 * random()) / 2, Math.round(720 * random()) / 2 - 180),
      );
      const end = frameOf(endOf([...BEGUN, ...rest]));
      // Of the half millimetre, the quarter degree and the slip that PROPOSE_SETTINGS and the inlet allow.
      const aside = unit(squareTo(end.tangent, randomDirection(random)));
      const tangent = unit(addScaled(end.tangent, aside, Math.tan(radiansOf(0.24 * random()))));
      const missed = addScaled(end.point, unit(randomDirection(random)), 0.49 * random());
      const inlet = poseAt(addScaled(missed, tangent, slipMm * (1.9 * random() - 0.95)), tangent, end.normal);
      const header = headerWith({ port: ALONG_X, inlet }, { pieces: BEGUN, slipMm });
      const [own] = header.primaries;
      if (own === undefined) throw new Error('no primary');
      const limits = closureLimits(header, findInlet(header, 'inlet') as Inlet);
      const closedBy = (pieces: readonly Piece[]) => {
        const closure = foundValue(primaryClosure(header, { ...own, pieces: [...BEGUN, ...pieces] }));
        return isClosed(closure, limits);
      };
      expect(closedBy(rest)).toBe(true);
      // So short a rest may lie within the slip from the first.
      if (closedBy([])) continue;
      const found = finishPrimary(header, 'own', null)?.pieces?.map((quick, at) => pieceFromQuick(quick, `new-${at}`));
      expect(found?.length ?? 9, `header ${i}`).toBeLessThanOrEqual(rest.length);
      expect(closedBy(found ?? [])).toBe(true);
    }
  });

  it('makes a straight that stands longer by less than the shortest there may be', () => {
    const pieces = [...BEGUN, straight(25.4)];
    const finishOf = (rest: Parameters<typeof primaryOf>[0]) =>
      finishPrimary(headerWith({ port: ALONG_X, inlet: endOf([...pieces, ...rest]) }, { pieces }), 'own', null)?.pieces;
    expect(finishOf([straight(6.35)])).toEqual([{ kind: 'straight', length: inches(0.25) }]);
    expect(finishOf([straight(6.35), bend(76.2, 30, -50)])).toMatchObject([
      { kind: 'straight', length: inches(0.25) },
      { kind: 'bend', angleDeg: 30, clockingDeg: -50 },
    ]);
  });

  // What a bend does, seen from where it begins: CLR sin ahead, CLR (1 - cos) to the side that it is clocked to.
  it.each([
    [30, 0],
    [45, 70],
    [90, -120],
    [180, 165],
  ])('tells where the inlet lies as a bend of %f degrees clocked %f would reach it', (angleDeg, clockingDeg) => {
    const inlet = endOf([...BEGUN, bend(76.2, angleDeg, clockingDeg)]);
    const toGo = finishPrimary(headerWith({ port: ALONG_X, inlet }, { pieces: BEGUN }), 'own', null)?.toGo;
    const rad = (angleDeg * Math.PI) / 180;
    expectWithin(toGo?.aheadMm ?? Number.NaN, 76.2 * Math.sin(rad), 1e-6);
    expectWithin(toGo?.asideMm ?? Number.NaN, 76.2 * (1 - Math.cos(rad)), 1e-6);
    expectWithin(toGo?.sideDeg ?? Number.NaN, clockingDeg, 1e-6);
    expectWithin(toGo?.tiltDeg ?? Number.NaN, angleDeg, 1e-6);
  });

  it('tells an inlet straight ahead from one that the end has run past', () => {
    const whereIs = (rest: Parameters<typeof primaryOf>[0], pieces: Parameters<typeof primaryOf>[0]) =>
      finishPrimary(headerWith({ port: ALONG_X, inlet: endOf(rest) }, { pieces }), 'own', null)?.toGo;
    const more = [...BEGUN, straight(101.6)];
    const ahead = whereIs(more, BEGUN);
    const past = whereIs(BEGUN, more);
    expectWithin(ahead?.aheadMm ?? Number.NaN, 101.6, 1e-9);
    expectWithin(past?.aheadMm ?? Number.NaN, -101.6, 1e-9);
    expect([ahead?.sideDeg, past?.sideDeg]).toEqual([null, null]);
    const style = { kind: 'fraction', per: 16 } as const;
    const words = (toGo: typeof ahead) => (toGo === undefined ? '' : toGoWords(toGo, style).replaceAll('\u2009', ' '));
    expect(words(ahead)).toBe('Inlet: 4" ahead, in line, square');
    expect(words(past)).toBe('Inlet: 4" behind, in line, square');
    expect(words({ aheadMm: 317.5, asideMm: 234.95, sideDeg: -134.8, tiltDeg: 45.04 })).toBe(
      `Inlet: 12 1/2" ahead, 9 1/4" aside at clocking ${String.fromCharCode(0x2212)}135°, tilt 45°`,
    );
  });

  it('takes the CLR of the header where the shelf has no bend of the tube', () => {
    const header = headerWith({ port: ALONG_X, inlet: endOf([...BEGUN, bend(76.2, 45, 70)]) }, { pieces: BEGUN });
    const withClr = { ...header, settings: { ...header.settings, clr: { value: 76.2, unit: 'mm' as const } } };
    expect(finishPrimary(withClr, 'own', [])?.pieces).toHaveLength(1);
  });

  it('says how far it is where one piece or two would not do, and nothing where it is closed', () => {
    const inlet = poseAt({ x: 180, y: -420, z: 260 }, { x: 0, y: -0.6, z: 0.8 }, { x: 1, y: 0, z: 0 });
    const finish = finishPrimary(headerWith({ port: ALONG_X, inlet }, { pieces: BEGUN }), 'own', null);
    expect(finish?.pieces).toBeNull();
    const end = foundValue(tracePrimary(primaryOf(BEGUN), ALONG_X)).end;
    expect(finish?.closure).toEqual(closureOf(end, frameOf(inlet)));
    expect(
      finishPrimary(headerWith({ port: ALONG_X, inlet: endOf(BEGUN) }, { pieces: BEGUN }), 'own', null),
    ).toBeNull();
  });
});

describe('which lengths there are', () => {
  const header = headerWith({
    port: ALONG_X,
    inlet: poseAt({ x: 180, y: -420, z: 260 }, { x: 0, y: -0.6, z: 0.8 }, UP_Z),
  });

  function reachOf() {
    const outcome = searchThrough(new ReachSearch(header, 'own', { clrs: CLRS }, 900));
    if (outcome.kind === 'none') throw new Error(outcome.reason.kind);
    return outcome.reach;
  }

  it('starts at the least and agrees with what can be proposed', () => {
    const reach = reachOf();
    expectWithin(reach.two[0]?.lowMm ?? 0, reach.leastMm ?? 0, 0.05);
    for (const lengthMm of [500, 560, 600, 700, 850]) {
      const isThere = reach.two.some(({ lowMm, highMm }) => lengthMm >= lowMm && lengthMm <= highMm);
      const length = { kind: 'about', lengthMm, minusMm: 1, plusMm: 1 } as const;
      const outcome = proposePrimaries(header, 'own', { clrs: CLRS, length, mostBends: 2 });
      expect(outcome.kind === 'found', `${lengthMm}`).toBe(isThere);
    }
    expect(reach.three?.length).toBeGreaterThan(0);
  });

  it('is refused with the reason where nothing is known', () => {
    const outcome = searchThrough(new ReachSearch(header, 'nobody', { clrs: [inches(3)] }));
    expect(outcome).toEqual({ kind: 'none', reason: { kind: 'noSuchPrimary' } });
  });

  it('shows those of two bends before those of three', () => {
    const search = new ReachSearch(header, 'own', { clrs: CLRS }, 900);
    while (search.news === 0) search.look(() => true);
    expect(search.soFar()).toMatchObject({ kind: 'found', reach: { three: null } });
    const whole = reachOf();
    expect(searchThrough(search)).toEqual({ kind: 'found', reach: whole });
    expect(search.soFar()).toMatchObject({ reach: { two: whole.two } });
  });
});
