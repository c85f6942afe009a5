/** Whole primaries between a port and an inlet: found, sound, and what is said when there is none. */

import { describe, expect, it } from 'vitest';
import { tracePrimary } from '../../../core/path/trace-primary.ts';
import { distance } from '../../../core/path/vector.ts';
import { describeLengthRanges, describeNoProposal } from '../../../core/propose/describe-proposals.ts';
import { shortestTwoBends } from '../../../core/propose/few/all-two-bends.ts';
import { type ManyBendQuestion, manyBends } from '../../../core/propose/joints/many-bends.ts';
import { shapeLengthMm } from '../../../core/propose/joints/tube-shape.ts';
import { shelfNeeds } from '../../../core/propose/offer/shelf-needs.ts';
import type { ProposalOutcome, ProposedPrimary } from '../../../core/propose/outcome.ts';
import { ProposalSearch, proposePrimaries } from '../../../core/propose/propose-primaries.ts';
import type { WantedLength } from '../../../core/propose/question.ts';
import { inches, millimetres, mmOf } from '../../../core/units/length.ts';
import { expectWithin } from '../../tolerance.ts';
import { ALONG_X, bend, foundValue, poseAt, primaryOf, seededRandom, straight, UP_Z } from '../path/made-primaries.ts';
import { expectSound } from './check-proposal.ts';
import { bendsOnShelf, CLRS, endsOf, headerWith, type PosePair, SOURCES } from './made-poses.ts';

const { EVENRUN_LONG } = process.env;
const PAIRS = EVENRUN_LONG === '1' ? 1000 : 60;

const LEAST = { firstMm: 12.7, betweenMm: 12.7, lastMm: 12.7 };
const TOLERANCE_MM = 3.175;

/** The least length with two bends of the CLRs of the measures; where there is none, the first of a rising row of lengths with three bends or four. */
function leastOf(pair: PosePair): number {
  const ends = endsOf(pair);
  const clrsMm = CLRS.map(mmOf);
  const lengths = clrsMm.flatMap((first) =>
    clrsMm.flatMap((second) => {
      const shape = shortestTwoBends({ ends, clrsMm: [first, second], least: LEAST });
      return shape === null ? [] : [shapeLengthMm(shape)];
    }),
  );
  if (lengths.length > 0) return Math.min(...lengths);
  for (let lengthMm = distance(ends.start.point, ends.wanted.point); ; lengthMm *= 1.04) {
    if ([3, 4].some((bends) => hasTube({ ends, least: LEAST, clrsMm, ready: new Map(), bends, lengthMm })))
      return lengthMm;
  }
}

const STARTS = 60;

function hasTube(question: ManyBendQuestion): boolean {
  let start = 0;
  for (const shapes of manyBends(question)) {
    if (shapes.length > 0) return true;
    start += 1;
    if (start > STARTS) break;
  }
  return false;
}

/** All figures on half degrees and sixteenths of an inch. */
function isCoarse({ pieces }: ProposedPrimary): boolean {
  return pieces.every((piece) => {
    if (piece.kind === 'straight') return Number.isInteger(piece.length.value * 16);
    return Number.isInteger(piece.angleDeg * 2) && Number.isInteger((piece.clockingDeg ?? 0.1) * 2);
  });
}

const about = (lengthMm: number): WantedLength => ({
  kind: 'about',
  lengthMm,
  minusMm: TOLERANCE_MM,
  plusMm: TOLERANCE_MM,
});

function proposalsOf(outcome: ProposalOutcome) {
  if (outcome.kind === 'none') throw new Error(`none: ${JSON.stringify(outcome)}`);
  return outcome.proposals;
}

function reasonOf(outcome: ProposalOutcome) {
  if (outcome.kind !== 'none') throw new Error('a proposal was found');
  return outcome.reason;
}

/** Header-like, anywhere, tight: the shares of pairs that must have a proposal. */
describe.each([
  ['headerLike', 0.995, 0.95],
  ['anywhere', 0.995, 0.9],
  ['tight', 0.94, 0.8],
] as const)('between %s poses', (source, share, coarseShare) => {
  it(
    `at a length 5 to 40 % over the least there is a sound proposal in ${100 * share} % of ${PAIRS}, on the coarsest grid in ${100 * coarseShare} %`,
    () => {
      const random = seededRandom(1620);
      let found = 0;
      let coarse = 0;
      for (let i = 0; i < PAIRS; i += 1) {
        const pair = SOURCES[source](random);
        const lengthMm = leastOf(pair) * (1.05 + 0.35 * random());
        const header = headerWith(pair);
        const outcome = proposePrimaries(header, 'own', { clrs: CLRS, length: about(lengthMm) });
        if (outcome.kind === 'none') {
          expect(describeNoProposal(outcome.reason, header.settings.display)).not.toBe('');
          continue;
        }
        found += 1;
        if (outcome.proposals.some(isCoarse)) coarse += 1;
        for (const proposal of outcome.proposals) {
          expectSound(header, proposal);
          expect(Math.abs(proposal.lengthMm - lengthMm)).toBeLessThanOrEqual(TOLERANCE_MM + 1e-6);
        }
      }
      if (EVENRUN_LONG === '1') console.log(`${source}: ${found} of ${PAIRS} found, ${coarse} on the coarsest grid`);
      expect(found / PAIRS).toBeGreaterThanOrEqual(share - 1e-9);
      expect(coarse / PAIRS).toBeGreaterThanOrEqual(coarseShare - 1e-9);
    },
    60 * 60_000,
  );
});

const PLAIN: PosePair = {
  port: ALONG_X,
  inlet: poseAt({ x: 180, y: -420, z: 260 }, { x: 0, y: -0.6, z: 0.8 }, { x: 1, y: 0, z: 0 }),
};

describe('one question', () => {
  it('has the same answer every time, looked through at once or in slices', () => {
    const header = headerWith(PLAIN);
    const options = { clrs: CLRS, length: about(700) };
    const whole = proposePrimaries(header, 'own', options);
    expect(proposePrimaries(header, 'own', options)).toEqual(whole);
    const search = new ProposalSearch(header, 'own', options);
    let slices = 0;
    while (!search.look(() => true)) slices += 1;
    expect(slices).toBeGreaterThan(3);
    expect(search.soFar()).toEqual(whole);
  });

  it('puts fewer bends first, then fewer joints, then bends that are bought at their angle', () => {
    const proposals = proposalsOf(proposePrimaries(headerWith(PLAIN), 'own', { clrs: CLRS, length: about(700) }));
    for (const [i, one] of proposals.entries()) {
      const next = proposals[i + 1];
      if (next === undefined) break;
      const order = one.bends - next.bends || one.joints - next.joints || next.readyBends - one.readyBends;
      expect(order).toBeLessThanOrEqual(0);
    }
    expect(proposals[0]?.bends).toBe(2);
    expect(proposals[0]?.readyBends).toBeGreaterThan(0);
  });

  it('goes by the header: its target within the tolerance, the least where there is none', () => {
    const target = { kind: 'typed', length: inches(27) } as const;
    const typed = headerWith(PLAIN, { settings: { target } });
    const [first] = proposalsOf(proposePrimaries(typed, 'own', { clrs: CLRS }));
    expectWithin(first?.lengthMm ?? 0, 27 * 25.4, TOLERANCE_MM);
    const [least] = proposalsOf(proposePrimaries(headerWith(PLAIN), 'own', { clrs: CLRS }));
    expect(least?.deviationMm).toBeNull();
    expect(least?.lengthMm).toBeGreaterThan(leastOf(PLAIN) - 0.6);
    expectWithin(least?.lengthMm ?? 0, leastOf(PLAIN), 8);
  });

  it('counts what welds take off', () => {
    const header = headerWith(PLAIN, { settings: { weldShrinkage: millimetres(0.8) } });
    const proposals = proposalsOf(proposePrimaries(header, 'own', { clrs: CLRS, length: about(700) }));
    for (const proposal of proposals) {
      expectSound(header, proposal);
      expectWithin(proposal.lengthMm, 700, TOLERANCE_MM);
    }
  });

  it('takes CLRs and angles from the shelf, and says what is lacking', () => {
    const stock = bendsOnShelf([
      [3, 90, 2],
      [3, 45, 2],
      [4, 90, 0],
    ]);
    const proposals = proposalsOf(proposePrimaries(headerWith(PLAIN), 'own', { stock, length: about(700) }));
    for (const { pieces, stockNeeded, stockLacking } of proposals) {
      for (const piece of pieces) if (piece.kind === 'bend') expect(piece.clr).toEqual(inches(3));
      const lacking = stockNeeded.filter((need) =>
        need.kind === 'bend' ? need.onShelf !== 'onShelf' : !need.isOnShelf,
      );
      expect(stockLacking).toBe(lacking.length);
      expect(stockNeeded).toHaveLength(pieces.length);
    }
    expect(reasonOf(proposePrimaries(headerWith(PLAIN), 'own', { stock: [] }))).toEqual({ kind: 'noClr' });
  });
});

describe('what the shelf has', () => {
  const bends = (...anglesDeg: readonly number[]) => anglesDeg.map((angleDeg) => ({ clr: inches(3), angleDeg }));
  const { tube } = headerWith(PLAIN).settings;
  const shelf = (...rows: readonly (readonly [angleDeg: number, count: number])[]) =>
    bendsOnShelf(rows.map(([angleDeg, count]) => [3, angleDeg, count]));
  const found = (stock: ReturnType<typeof bendsOnShelf>, ...anglesDeg: readonly number[]) =>
    shelfNeeds(stock, tube, [], bends(...anglesDeg)).map((need) => (need.kind === 'bend' ? need.onShelf : null));

  it('is taken once: one bend of 90 makes no two', () => {
    expect(found(shelf([90, 1]), 58.5, 90)).toEqual(['noneLeft', 'onShelf']);
    expect(found(shelf([90, 2]), 58.5, 90)).toEqual(['onShelf', 'onShelf']);
    expect(found(shelf([180, 1]), 90, 90)).toEqual(['onShelf', 'onShelf']);
    expect(found(shelf([180, 1], [45, 1]), 45, 90, 90)).toEqual(['onShelf', 'onShelf', 'onShelf']);
    expect(found(shelf([45, 3]), 90)).toEqual(['tooFewDegrees']);
  });

  it('of a length of tube too: three straights out of one that is long enough for two', () => {
    const length = { ...tube, kind: 'straight', id: 'length', count: 1, note: '', length: millimetres(500) } as const;
    const needs = shelfNeeds([length], tube, [200, 250, 100], []);
    expect(needs.map((need) => need.kind === 'straight' && need.isOnShelf)).toEqual([true, true, false]);
  });
});

describe('one bend and none', () => {
  it('is enough where the axes meet', () => {
    const pair = { port: ALONG_X, inlet: poseAt({ x: 300, y: 200, z: 0 }, { x: 0, y: 1, z: 0 }, UP_Z) };
    const lengthMm = 500 - 2 * 76.2 + (76.2 * Math.PI) / 2;
    const header = headerWith(pair);
    const [first] = proposalsOf(proposePrimaries(header, 'own', { clrs: [inches(3)], length: about(lengthMm) }));
    expect(first?.bends).toBe(1);
    expect(first?.readyBends).toBe(1);
    if (first !== undefined) expectSound(header, first);
  });

  it('is a U-bend where the axes lie two CLRs apart', () => {
    const pair = { port: ALONG_X, inlet: poseAt({ x: 0, y: 152.4, z: 0 }, { x: -1, y: 0, z: 0 }, UP_Z) };
    const header = headerWith(pair);
    const lengthMm = 76.2 * Math.PI + 4 * 25.4;
    const [first] = proposalsOf(proposePrimaries(header, 'own', { clrs: [inches(3)], length: about(lengthMm) }));
    expect(first?.pieces.map((piece) => (piece.kind === 'straight' ? mmOf(piece.length) : piece.angleDeg))).toEqual([
      50.8, 180, 50.8,
    ]);
  });

  it('is a straight where both are in one line', () => {
    const pair = { port: ALONG_X, inlet: poseAt({ x: 254, y: 0, z: 0 }, { x: 1, y: 0, z: 0 }, UP_Z) };
    const [first] = proposalsOf(proposePrimaries(headerWith(pair), 'own', { length: about(254) }));
    expect(first?.pieces).toHaveLength(1);
    expect(first?.cuts).toBe(1);
  });
});

describe('an inlet behind its port', () => {
  it.each([
    ['and pointing the same way', { x: 1, y: 0, z: 0 }],
    ['and pointing back', { x: -1, y: 0, z: 0 }],
  ])('%s takes a way round', (_, direction) => {
    const header = headerWith({ port: ALONG_X, inlet: poseAt({ x: -300, y: 0, z: 0 }, direction, UP_Z) });
    for (const proposal of proposalsOf(proposePrimaries(header, 'own', { clrs: [inches(3)] }))) {
      expectSound(header, proposal);
    }
  });
});

describe('what is half tacked', () => {
  it('stays, and what is only planned goes', () => {
    const tacked = [straight(60), bend(76.2, 60, -30)];
    const planned = { ...bend(76.2, 20, 10), state: 'planned' as const };
    const header = headerWith(PLAIN, { pieces: [...tacked, planned] });
    const proposals = proposalsOf(proposePrimaries(header, 'own', { clrs: CLRS, length: about(720) }));
    for (const proposal of proposals) {
      expect(proposal.keptPieces).toBe(2);
      const after = expectSound(header, proposal);
      expect(after.primaries[0]?.pieces.slice(0, 2)).toEqual(tacked);
      expect(after.primaries[0]?.pieces.some(({ id }) => id === planned.id)).toBe(false);
      expectWithin(proposal.lengthMm, 720, TOLERANCE_MM);
    }
  });
});

describe('a straight that stands', () => {
  const begun = [straight(60), bend(76.2, 60, -30)];
  const rest = [bend(76.2, 90, 70), straight(101.6), bend(76.2, 45, -20), straight(50.8)];

  /** Half built up to a straight of so many mm; the inlet is where the rest ends that was put right after it. */
  function halfBuilt(standingMm: number, moreMm: number) {
    const tacked = [...begun, straight(standingMm)];
    const whole = foundValue(tracePrimary(primaryOf([...tacked, straight(moreMm), ...rest]), ALONG_X)).end;
    const header = headerWith(
      { port: ALONG_X, inlet: poseAt(whole.point, whole.tangent, whole.normal) },
      { pieces: tacked },
    );
    const lengthMm = 60 + standingMm + moreMm + 152.4 + (76.2 * (60 + 90 + 45) * Math.PI) / 180;
    return { header, proposals: proposalsOf(proposePrimaries(header, 'own', { clrs: CLRS, length: about(lengthMm) })) };
  }

  it('and is long enough is followed by a bend at once', () => {
    const { header, proposals } = halfBuilt(30, 0);
    expect(proposals[0]?.pieces.map(({ kind }) => kind)).toEqual(['bend', 'straight', 'bend', 'straight']);
    for (const proposal of proposals) expectSound(header, proposal);
  });

  it('and is not is made longer by what is missing', () => {
    // Of half an inch 6.35 mm stand.
    const { header, proposals } = halfBuilt(6.35, 6.35);
    for (const proposal of proposals) expectSound(header, proposal);
    const firsts = proposals.flatMap(({ pieces: [first] }) => (first?.kind === 'straight' ? [mmOf(first.length)] : []));
    expect(firsts).toHaveLength(proposals.length);
    expect(Math.min(...firsts)).toBeLessThan(12.7);
  });
});

describe('the gap wanted', () => {
  const wall = {
    kind: 'box',
    id: 'wall',
    name: 'wall',
    corner: poseAt({ x: 150, y: -260, z: -300 }, UP_Z, UP_Z).at,
    opposite: poseAt({ x: 400, y: -200, z: 120 }, UP_Z, UP_Z).at,
  } as const;

  it('is kept to what stands in the way, or it is said that it cannot be', () => {
    const header = headerWith(PLAIN, { obstacles: [wall] });
    for (const proposal of proposalsOf(proposePrimaries(header, 'own', { clrs: CLRS, length: about(700) }))) {
      expectSound(header, proposal);
      expect(proposal.nearest?.gapMm ?? 0).toBeGreaterThanOrEqual(6.35 - 1e-6);
    }
    const shut = {
      ...wall,
      corner: poseAt({ x: -2000, y: -260, z: -2000 }, UP_Z, UP_Z).at,
      opposite: poseAt({ x: 2000, y: -200, z: 2000 }, UP_Z, UP_Z).at,
    };
    const reason = reasonOf(
      proposePrimaries(headerWith(PLAIN, { obstacles: [shut] }), 'own', { clrs: CLRS, length: about(700) }),
    );
    expect(reason).toMatchObject({ kind: 'tooTight', keptMm: 6.35 });
  });
});

describe('what cannot be', () => {
  it.each([
    ['no such primary', headerWith(PLAIN), 'nobody', 'noSuchPrimary'],
    ['finished', { ...headerWith(PLAIN), state: 'finished' as const }, 'own', 'headerFinished'],
    ['same place', headerWith({ port: ALONG_X, inlet: ALONG_X }), 'own', 'samePlace'],
  ] as const)('%s is refused with the reason', (_, header, id, kind) => {
    expect(reasonOf(proposePrimaries(header, id, { clrs: CLRS })).kind).toBe(kind);
  });

  it('a primary without a port or an inlet names what is missing', () => {
    const header = headerWith(PLAIN);
    const bare = header.primaries.map((primary) => ({ ...primary, port: null }));
    const reason = reasonOf(proposePrimaries({ ...header, primaries: bare }, 'own'));
    expect(reason).toMatchObject({ kind: 'endsUnknown', problem: { kind: 'portMissing' } });
    const loose = header.primaries.map((primary) => ({ ...primary, inletId: null }));
    const other = reasonOf(proposePrimaries({ ...header, primaries: loose }, 'own'));
    expect(other).toMatchObject({ kind: 'endsUnknown', problem: { kind: 'inletNotAssigned' } });
  });

  it('a length below the least is refused with the least and the lengths that there are', () => {
    const outcome = proposePrimaries(headerWith(PLAIN), 'own', { clrs: CLRS, length: about(520), mostBends: 2 });
    const leastMm = leastOf(PLAIN);
    expect(reasonOf(outcome)).toMatchObject({ kind: 'tooShort', wantedMm: 520 });
    if (outcome.kind !== 'none' || outcome.reason.kind !== 'tooShort') return;
    expectWithin(outcome.reason.leastMm, leastMm, 1e-6);
    expectWithin(outcome.nearest[0]?.lowMm ?? 0, leastMm, 0.05);
    expect(describeLengthRanges(outcome.nearest, { kind: 'mm', places: 0 })).toBe(
      `With two bends: ${Math.round(leastMm)} mm and more.`,
    );
  });

  /** One tube is there without a bend, or with one, and none of it has the length: that is no matter of rounding. */
  it.each([
    ['in line', { x: 300, y: 0, z: 0 }, { x: 1, y: 0, z: 0 }, 200],
    ['across', { x: 300, y: 200, z: 0 }, { x: 0, y: 1, z: 0 }, 300],
  ] as const)('a length below that of the one tube %s is too short', (_, at, direction, lengthMm) => {
    const header = headerWith({ port: ALONG_X, inlet: poseAt(at, direction, UP_Z) });
    const outcome = proposePrimaries(header, 'own', { clrs: CLRS, length: about(lengthMm) });
    expect(reasonOf(outcome)).toMatchObject({ kind: 'tooShort', wantedMm: lengthMm });
    if (outcome.kind === 'none') for (const { lowMm, highMm } of outcome.nearest) expect(highMm).toBeGreaterThan(lowMm);
  });

  it.each([
    ['behind the port, the same way', { x: -200, y: 0, z: 0 }, { x: 1, y: 0, z: 0 }],
    ['behind the port, facing it', { x: -200, y: 0, z: 0 }, { x: -1, y: 0, z: 0 }],
    ['in line and ahead, turned round', { x: 300, y: 0, z: 0 }, { x: -1, y: 0, z: 0 }],
    ['in line and ahead, too near', { x: 5, y: 0, z: 0 }, { x: 1, y: 0, z: 0 }],
    ['beside it, the same way', { x: 0, y: 60, z: 0 }, { x: 1, y: 0, z: 0 }],
    ['beside it, turned round', { x: 0, y: 60, z: 0 }, { x: -1, y: 0, z: 0 }],
  ] as const)('an inlet %s has an answer or a reason', (_, at, direction) => {
    const header = headerWith({ port: ALONG_X, inlet: poseAt(at, direction, UP_Z) });
    const outcome = proposePrimaries(header, 'own', { clrs: CLRS, length: about(900) });
    if (outcome.kind === 'found') for (const proposal of outcome.proposals) expectSound(header, proposal);
    else expect(describeNoProposal(outcome.reason, header.settings.display)).not.toBe('');
  });
});

describe('the reason in words', () => {
  const style = { kind: 'mm', places: 0 } as const;

  it('counts the bends, and names the length only where one was wanted', () => {
    const words = (mostBends: number, isLengthWanted: boolean) =>
      describeNoProposal({ kind: 'outOfReach', mostBends, isLengthWanted }, style);
    expect(words(1, true)).toBe('No tube of up to 1 bend was found that ends in the inlet at this length.');
    expect(words(4, false)).toBe('No tube of up to 4 bends was found that ends in the inlet.');
  });
});
