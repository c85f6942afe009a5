/**
 * Headers in states that invite a wrong verdict, and what must be said of each: unfinished, empty, alone, all off, at the band's
 * edge. That the first, farthest primary sets the length and the others are measured against it once they are in is common practice.
 */

import { describe, expect, test } from 'vitest';
import type { Collector, Header, PieceState, Pose, Primary, Settings, Target } from '../../../core/header/header.ts';
import { type MatchReport, matchHeader } from '../../../core/length/match-header.ts';
import { inches, type Length, millimetres } from '../../../core/units/length.ts';
import { bandWords, captionSentence, verdictWords } from '../../../renderer/ui/words/verdict-words.ts';
import { header, primary, straight } from './header-of-pieces.ts';

const MM1 = { kind: 'mm', places: 1 } as const;

/** A primary of one straight or more; the last of them may be in another state than tacked. */
interface Tube {
  readonly lengths: readonly Length[];
  readonly lastState?: PieceState;
  /** How far along its own axis its inlet is from its port; none when left out. */
  readonly inletAt?: Length;
  /** How far the inlet lies off that axis. */
  readonly aside?: Length;
}

const tube = (...lengthsIn: readonly number[]): Tube => ({ lengths: lengthsIn.map(inches) });
const tubeMm = (...lengthsMm: readonly number[]): Tube => ({ lengths: lengthsMm.map(millimetres) });
const planned = (one: Tube): Tube => ({ ...one, lastState: 'planned' });
const toInlet = (one: Tube, at: Length, aside: Length = inches(0)): Tube => ({ ...one, inletAt: at, aside });

const poseAt = (x: Length, y: Length): Pose => ({
  at: { x, y, z: inches(0) },
  direction: { x: 1, y: 0, z: 0 },
  up: { x: 0, y: 0, z: 1 },
});

function primaryOf({ lengths, lastState = 'tacked', inletAt }: Tube, index: number): Primary {
  const pieces = lengths.map((length, place) => ({
    ...straight(length),
    state: place === lengths.length - 1 ? lastState : ('tacked' as const),
  }));
  const ends = inletAt === undefined ? {} : { port: poseAt(inches(0), inches(0)), inletId: `i${index}` };
  return { ...primary(`p${index}`, pieces), name: String(index + 1), ...ends };
}

/** Inlets with a quarter of an inch of slip outwards, one for every tube that has one. */
function collectorOf(tubes: readonly Tube[]): readonly Collector[] {
  const inlets = tubes.flatMap(({ inletAt, aside = inches(0) }, index) =>
    inletAt === undefined
      ? []
      : [
          {
            id: `i${index}`,
            name: String(index + 1),
            place: { kind: 'pose' as const, pose: poseAt(inletAt, aside) },
            slip: { deeper: inches(0.25), shallower: inches(0.25) },
          },
        ],
  );
  return inlets.length === 0 ? [] : [{ id: 'c', name: 'collector', inlets }];
}

interface Case {
  readonly name: string;
  readonly tubes: readonly Tube[];
  readonly settings?: Partial<Settings>;
  readonly state?: Header['state'];
  /** What is said of each primary. */
  readonly words: readonly string[];
  /** What is said of the header. */
  readonly sum: string;
}

const EIGHTH: Partial<Settings> = { tolerance: { minus: inches(1 / 8), plus: inches(1 / 8) } };
const targetOf = (target: Target, more: Partial<Settings> = {}): Partial<Settings> => ({ ...EIGHTH, ...more, target });
const TYPED_36 = targetOf({ kind: 'typed', length: inches(36) });
const MEAN = targetOf({ kind: 'mean' });
const THIRD = targetOf({ kind: 'primary', primaryId: 'p2' });

const CASES: readonly Case[] = [
  { name: 'no primaries', tubes: [], words: [], sum: 'No primary has a length to compare yet.' },
  {
    name: 'four without pieces',
    tubes: [tube(), tube(), tube(), tube()],
    words: ['no pieces yet', 'no pieces yet', 'no pieces yet', 'no pieces yet'],
    sum: 'No primary has a length to compare yet.',
  },
  {
    name: 'one primary of three pieces, whose target is itself',
    tubes: [tube(8.25, 4.75, 2), tube()],
    words: ['sets the length', 'no pieces yet'],
    sum: 'Primary 1 sets the length; there is no other to compare yet.',
  },
  {
    name: 'one primary, the mean of which is itself',
    tubes: [tube(8.25, 4.75)],
    settings: MEAN,
    words: ['sets the length'],
    sum: 'Primary 1 sets the length; there is no other to compare yet.',
  },
  {
    name: 'one primary chosen for the target',
    tubes: [tube(), tube(), tube(20)],
    settings: THIRD,
    words: ['no pieces yet', 'no pieces yet', 'sets the length'],
    sum: 'Primary 3 sets the length; there is no other to compare yet.',
  },
  {
    name: 'the first is done, the second begun',
    tubes: [tube(35.25), tube(8, 4)],
    words: ['sets the length', 'to go 23 1/4"'],
    sum: 'Primary 1 sets the length; 1 still being built.',
  },
  {
    name: 'within a tenth of the target and judged',
    tubes: [tube(35.25), tube(34)],
    words: ['sets the length', '1 1/4" short'],
    sum: 'Primary 2 is 1 1/4" short; 0 of 1 within ±1/8". Spread 1 1/4" about a mean of 34 5/8".',
  },
  {
    name: 'exactly a tenth short is judged, a sixteenth more is to go',
    tubes: [tube(40), tube(36), tube(35.9375)],
    words: ['sets the length', '4" short', 'to go 4 1/16"'],
    sum: 'Primary 2 is 4" short; 0 of 1 within ±1/8". 1 still being built. Spread 4" about a mean of 38".',
  },
  {
    name: 'all in the band',
    tubes: [tube(35.25), tube(35.1875), tube(35.25)],
    words: ['sets the length', 'OK', 'OK'],
    sum: 'All 2 judged are within ±1/8". Spread 1/16" about a mean of 35 1/4".',
  },
  {
    name: 'ties for the longest: the first sets the length, the others are OK',
    tubes: [tube(35), tube(36), tube(36), tube(36)],
    words: ['1" short', 'sets the length', 'OK', 'OK'],
    sum: 'Primary 1 is 1" short, the worst of 3; 2 of 3 within ±1/8". Spread 1" about a mean of 35 3/4".',
  },
  {
    name: 'all off a typed target by inches, on both sides',
    tubes: [tube(33), tube(39.5), tube(34.75), tube(38)],
    settings: TYPED_36,
    words: ['3" short', '3 1/2" long', '1 1/4" short', '2" long'],
    sum: 'Primary 2 is 3 1/2" long, the worst of 4; 0 of 4 within ±1/8". Spread 6 1/2" about a mean of 36 5/16".',
  },
  {
    name: 'far over a typed target is long, never reached',
    tubes: [tube(49.8125)],
    settings: TYPED_36,
    words: ['13 13/16" long'],
    sum: 'Primary 1 is 13 13/16" long; 0 of 1 within ±1/8".',
  },
  {
    name: 'over the target with a piece that is only planned is over, without a verdict',
    tubes: [planned(tube(36, 13.8125))],
    settings: TYPED_36,
    words: ['13 13/16" over'],
    sum: '1 still being built, so none is judged yet.',
  },
  {
    name: 'in the band with its last piece planned is not OK yet',
    tubes: [tube(36), planned(tube(24, 12))],
    words: ['sets the length', 'at target'],
    sum: 'Primary 1 sets the length; 1 still being built.',
  },
  {
    name: 'a planned copy of the one that sets the length',
    tubes: [tube(36), tube(35.75), planned(tube(36))],
    words: ['sets the length', '1/4" short', 'at target'],
    sum: 'Primary 2 is 1/4" short; 0 of 1 within ±1/8". 1 still being built. Spread 1/4" about a mean of 35 7/8".',
  },
  {
    name: 'the longest is only planned: it sets the length, and nobody is judged',
    tubes: [tube(35), tube(34.9375), planned(tube(24, 12))],
    words: ['to go 1"', 'to go 1 1/16"', 'sets the length, still being built'],
    sum: 'Primary 3 sets the length and is still being built, so none is judged yet.',
  },
  {
    name: 'the chosen one is only planned: what is longer is over, not long',
    tubes: [tube(37), tube(36), planned(tube(36))],
    settings: THIRD,
    words: ['1" over', 'at target', 'sets the length, still being built'],
    sum: 'Primary 3 sets the length and is still being built, so none is judged yet.',
  },
  {
    name: 'every primary of the mean is planned',
    tubes: [planned(tube(35)), planned(tube(36))],
    settings: MEAN,
    words: ['to go 1/2"', '1/2" over'],
    sum: '2 still being built, so none is judged yet.',
  },
  {
    name: 'the mean is that of the whole ones',
    tubes: [tube(36), tube(35), tube(6, 5), planned(tube(40))],
    settings: MEAN,
    words: ['1/2" long', '1/2" short', 'to go 24 1/2"', '4 1/2" over'],
    sum: 'Primary 1 is 1/2" long, the worst of 2; 0 of 2 within ±1/8". 2 still being built. Spread 1" about a mean of 35 1/2".',
  },
  {
    name: 'the chosen one has no pieces, so there is no target',
    tubes: [tube(36), tube(35), tube()],
    settings: THIRD,
    words: ['no target yet', 'no target yet', 'no pieces yet'],
    sum: 'No primary has a length to compare yet.',
  },
  {
    name: 'the chosen one is gone',
    tubes: [tube(36)],
    settings: THIRD,
    words: ['no target yet'],
    sum: 'No primary has a length to compare yet.',
  },
  {
    name: 'in its inlet and short: it is whole, and short',
    tubes: [tube(36), toInlet(tube(30), inches(30))],
    words: ['sets the length', '6" short'],
    sum: 'Primary 2 is 6" short; 0 of 1 within ±1/8". Spread 6" about a mean of 33".',
  },
  {
    name: 'nearly as long as the target, its inlet a foot away: it is to go',
    tubes: [tube(36), toInlet(tube(34), inches(46))],
    words: ['sets the length', 'to go 2"'],
    sum: 'Primary 1 sets the length; 1 still being built.',
  },
  {
    name: 'off its inlet by less than the shortest straight: no piece is missing, it is short',
    tubes: [tube(36), toInlet(tube(35.75), inches(35.75), inches(0.375))],
    words: ['sets the length', '1/4" short'],
    sum: 'Primary 2 is 1/4" short; 0 of 1 within ±1/8". Spread 1/4" about a mean of 35 7/8".',
  },
  {
    name: 'the slip of the inlet takes its share of the gap; past it there is room for a piece',
    tubes: [tube(36), toInlet(tube(35), inches(35.6875)), toInlet(tube(35), inches(35.8125))],
    words: ['sets the length', '1" short', 'to go 1"'],
    sum: 'Primary 2 is 1" short; 0 of 1 within ±1/8". 1 still being built. Spread 1" about a mean of 35 1/2".',
  },
  {
    name: 'long enough, though its end is in the wrong place: no further piece would help, so it is judged',
    tubes: [tube(36), toInlet(tube(36.5), inches(30), inches(4)), toInlet(tube(35.9375), inches(20), inches(9))],
    settings: targetOf({ kind: 'primary', primaryId: 'p0' }),
    words: ['sets the length', '1/2" long', 'OK'],
    sum: 'Primary 2 is 1/2" long, the worst of 2; 1 of 2 within ±1/8". Spread 9/16" about a mean of 36 1/8".',
  },
  {
    name: 'the one that sets the length has not reached its inlet',
    tubes: [toInlet(tube(20), inches(36)), tube(19.9375)],
    words: ['sets the length, still being built', 'to go 1/16"'],
    sum: 'Primary 1 sets the length and is still being built, so none is judged yet.',
  },
  {
    name: 'the band counts its edges, below and above',
    tubes: [tube(35.875), tube(36.125), tube(35.874), tube(36.126)],
    settings: TYPED_36,
    words: ['OK', 'OK', '0.126" short', '0.126" long'],
    sum: 'Primary 3 is 0.126" short, the worst of 4; 2 of 4 within ±1/8". Spread 1/4" about a mean of 36".',
  },
  {
    name: 'a band of no width, in mm',
    tubes: [tubeMm(914.4), tubeMm(914.3), tubeMm(914.5)],
    settings: {
      display: MM1,
      tolerance: { minus: millimetres(0), plus: millimetres(0) },
      target: { kind: 'typed', length: inches(36) },
    },
    words: ['OK', '0.1 mm short', '0.1 mm long'],
    sum: 'Primary 2 is 0.1 mm short, the worst of 3; 1 of 3 within ±0.0 mm. Spread 0.2 mm about a mean of 914.4 mm.',
  },
  {
    name: 'in mm, one on its way',
    tubes: [tubeMm(895.4), tubeMm(890.2), tubeMm(600)],
    settings: { display: MM1, tolerance: { minus: millimetres(3), plus: millimetres(3) } },
    words: ['sets the length', '5.2 mm short', 'to go 295.4 mm'],
    sum: 'Primary 2 is 5.2 mm short; 0 of 1 within ±3.0 mm. 1 still being built. Spread 5.2 mm about a mean of 892.8 mm.',
  },
  {
    name: 'huge: a hundred feet and one of them an inch off',
    tubes: [tube(1200), tube(1199), tube(1200)],
    words: ['sets the length', '1" short', 'OK'],
    sum: 'Primary 2 is 1" short, the worst of 2; 1 of 2 within ±1/8". Spread 1" about a mean of 1199 11/16".',
  },
  {
    name: 'a finished header is as it is: planned marks and open ends are no excuse',
    tubes: [tube(36), planned(tube(24, 11)), tube(20)],
    state: 'finished',
    words: ['sets the length', '1" short', '16" short'],
    sum: 'Primary 3 is 16" short, the worst of 2; 0 of 2 within ±1/8". Spread 16" about a mean of 30 5/16".',
  },
];

function headerOf({ tubes, settings, state = 'open' }: Case): Header {
  const made = header(tubes.map(primaryOf), settings ?? EIGHTH);
  return { ...made, state, collectors: collectorOf(tubes) };
}

const plain = (text: string) => text.replaceAll('\u2009', ' ');

function wordsOf(one: Case): { readonly words: readonly string[]; readonly sum: string; readonly report: MatchReport } {
  const made = headerOf(one);
  const { display, tolerance } = made.settings;
  const report = matchHeader(made);
  const mm = ({ value, unit }: Length) => (unit === 'in' ? value * 25.4 : value);
  const band = bandWords(mm(tolerance.minus), mm(tolerance.plus), display);
  return {
    words: report.primaries.map((match) => plain(verdictWords(match, display))),
    sum: plain(captionSentence(report, band, display)),
    report,
  };
}

describe('what is said of', () => {
  test.each(CASES)('$name', (one) => {
    const { words, sum } = wordsOf(one);
    expect({ words, sum }).toEqual({ words: one.words, sum: one.sum });
  });

  test('thirty states or more are in the table', () => {
    expect(CASES.length).toBeGreaterThanOrEqual(30);
    expect(new Set(CASES.map(({ name }) => name)).size).toBe(CASES.length);
  });
});

test.each(CASES)('verdicts only for what is judged: $name', (one) => {
  const { report } = wordsOf(one);
  for (const match of report.primaries) {
    expect(match.verdict !== null).toBe(match.standing === 'judged');
    expect(match.deviationMm === null).toBe(match.standing === 'empty' || match.standing === 'noTarget');
    if (match.standing === 'judged') expect(match.building).toBeNull();
    if (match.standing === 'judged') expect(report.isTargetBuilding).toBe(false);
  }
});
