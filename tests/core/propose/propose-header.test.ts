/** Whole headers: all primaries at one length, clear of each other. */

import { describe, expect, it } from 'vitest';
import { applyEdit } from '../../../core/edits/apply-edit.ts';
import type { Header } from '../../../core/header/header.ts';
import { matchHeader } from '../../../core/length/match-header.ts';
import { primaryLength } from '../../../core/length/piece-length.ts';
import { headerClearances } from '../../../core/path/clearance/header-clearances.ts';
import { pointAt, tracePrimary } from '../../../core/path/trace-primary.ts';
import { distance, type Vector } from '../../../core/path/vector.ts';
import { proposeHeader } from '../../../core/propose/whole/propose-header.ts';
import { millimetres } from '../../../core/units/length.ts';
import { onCpu } from '../../cpu-time.ts';
import { foundValue, seededRandom } from '../path/made-primaries.ts';
import { constructedHeader, randomBank } from './made-banks.ts';
import { CLRS } from './made-poses.ts';

const { EVENRUN_LONG } = process.env;
const isLong = EVENRUN_LONG === '1';
const BANKS = isLong ? 60 : 4;
const FAILING = isLong ? 3 : 0;

const OD_MM = 44.45;
const GAP_MM = 6.35;

/** Points along each tube up to its last four diameters, a millimetre apart. */
function pointsBefore(header: Header, index: number): readonly Vector[] {
  const primary = header.primaries[index];
  if (primary === undefined) return [];
  const points: { at: Vector; mm: number }[] = [];
  let mm = 0;
  for (const span of foundValue(tracePrimary(primary, primary.port)).spans) {
    const parts = Math.ceil(span.lengthMm / 2);
    for (let part = 0; part < parts; part += 1)
      points.push({ at: pointAt(span, part / parts), mm: mm + (span.lengthMm * part) / parts });
    mm += span.lengthMm;
  }
  return points.filter((point) => point.mm < mm - 4 * OD_MM).map(({ at }) => at);
}

function leastApart(one: readonly Vector[], other: readonly Vector[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (const a of one) for (const b of other) least = Math.min(least, distance(a, b));
  return least;
}

describe('a bank of four into one collector', () => {
  it(
    `is placed whole in all but ${FAILING} of ${BANKS}, each primary at one length, no gap violated by sampling`,
    () => {
      const random = seededRandom(1640);
      const times: number[] = [];
      let placed = 0;
      for (let i = 0; i < BANKS; i += 1) {
        const header = randomBank(random);
        const { ms, value: outcome } = onCpu(() => proposeHeader(header, { clrs: CLRS }));
        times.push(ms);
        if (outcome.kind === 'none') continue;
        placed += 1;
        const after = foundValue(applyEdit(header, outcome.proposal.edit)).header;
        expect(new Set(after.primaries.map(({ inletId }) => inletId)).size).toBe(4);
        expect(headerClearances(after).tight).toEqual([]);
        for (let a = 0; a < 4; a += 1) {
          for (let b = a + 1; b < 4; b += 1) {
            expect(leastApart(pointsBefore(after, a), pointsBefore(after, b))).toBeGreaterThan(GAP_MM + OD_MM - 1e-6);
          }
        }
        for (const primary of after.primaries) {
          expect(Math.abs(primaryLength(primary, { shrinkageMm: 0 }) - outcome.proposal.lengthMm)).toBeLessThanOrEqual(
            3.175 + 1e-6,
          );
        }
      }
      if (isLong)
        console.log(
          `placed ${placed} of ${BANKS}; ms: ${times
            .sort((a, b) => a - b)
            .map(Math.round)
            .join(' ')}`,
        );
      expect(placed).toBeGreaterThanOrEqual(BANKS - FAILING);
    },
    60 * 60_000,
  );
});

/** One of a row of banks from a seed. */
function bankAt(seed: number, index: number): Header {
  const random = seededRandom(seed);
  for (let i = 0; i < index; i += 1) randomBank(random);
  return randomBank(random);
}

describe('what is asked for besides', () => {
  it('brings all into the band of a target that they make themselves: no two lie farther apart than the tolerance', () => {
    const header = bankAt(99, 1);
    const outcome = proposeHeader(header, { clrs: CLRS });
    if (outcome.kind === 'none') throw new Error('none');
    const after = foundValue(applyEdit(header, outcome.proposal.edit)).header;
    expect(matchHeader(after).primaries.map(({ side }) => side)).toEqual(['inBand', 'inBand', 'inBand', 'inBand']);
  });

  it('keeps the gap asked for and not the one of the header, be it less', () => {
    const header = bankAt(99, 0);
    const wide = { ...header, settings: { ...header.settings, wantedGap: millimetres(25) } };
    expect(proposeHeader(wide, { clrs: CLRS, clearanceKeptMm: 0 }).kind).toBe('found');
  });

  it('gives no primary more bends than are allowed', () => {
    expect(proposeHeader(bankAt(99, 0), { clrs: CLRS, mostBends: 1 })).toMatchObject({
      kind: 'none',
      reason: { kind: 'onePrimary', primaryId: 'p1', reason: { kind: 'outOfReach', mostBends: 1 } },
    });
  });
});

const MADE = isLong ? 30 : 3;

describe('a header that is known to be feasible', () => {
  it(
    `takes no more bends than the tubes that it was made from, in 90 % of ${MADE}`,
    () => {
      const random = seededRandom(1650);
      let asFew = 0;
      for (let i = 0; i < MADE; i += 1) {
        const { header, lengthMm, bends } = constructedHeader(random, 3);
        const outcome = proposeHeader(header, { clrs: CLRS, lengthMm });
        if (outcome.kind === 'found' && outcome.proposal.bends <= bends) asFew += 1;
      }
      if (isLong) console.log(`no more bends in ${asFew} of ${MADE}`);
      expect(asFew).toBeGreaterThanOrEqual(0.9 * MADE);
    },
    60 * 60_000,
  );
});

describe('what cannot be', () => {
  it('is answered with the reason', () => {
    const header = randomBank(seededRandom(7));
    expect(proposeHeader({ ...header, state: 'finished' })).toEqual({
      kind: 'none',
      reason: { kind: 'headerFinished' },
    });
    const bare = { ...header, primaries: header.primaries.map((primary) => ({ ...primary, port: null })) };
    expect(proposeHeader(bare)).toEqual({ kind: 'none', reason: { kind: 'noneToDo' } });
    expect(proposeHeader(header, { clrs: CLRS, lengthMm: 200 })).toMatchObject({
      kind: 'none',
      reason: { kind: 'onePrimary', primaryId: 'p1', reason: { kind: 'outOfReach', isLengthWanted: true } },
    });
    expect(proposeHeader(header, { stock: [] })).toMatchObject({
      kind: 'none',
      reason: { kind: 'onePrimary', reason: { kind: 'noClr' } },
    });
  });
});
