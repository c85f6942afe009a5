/** What would finish a primary, and which lengths there are at all. */

import { describe, expect, it } from 'vitest';
import { closureOf } from '../../../core/path/ends/closure.ts';
import { tracePrimary } from '../../../core/path/trace-primary.ts';
import { finishPrimary } from '../../../core/propose/finish-primary.ts';
import { proposePrimaries } from '../../../core/propose/propose-primaries.ts';
import { searchReach } from '../../../core/propose/reach/reachable-lengths.ts';
import { inches, mmOf } from '../../../core/units/length.ts';
import { expectWithin } from '../../tolerance.ts';
import { ALONG_X, bend, foundValue, poseAt, primaryOf, straight, UP_Z } from '../path/made-primaries.ts';
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
    const steps = searchReach(header, 'own', { clrs: CLRS }, 900);
    for (;;) {
      const { done, value } = steps.next();
      if (done !== true) continue;
      if ('kind' in value) throw new Error(value.kind);
      return value;
    }
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
    expect(reach.three.length).toBeGreaterThan(0);
  });

  it('is refused with the reason where nothing is known', () => {
    const steps = searchReach(header, 'nobody', { clrs: [inches(3)] });
    expect(steps.next()).toEqual({ done: true, value: { kind: 'noSuchPrimary' } });
  });
});
