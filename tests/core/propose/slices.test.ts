/** How long the searches of proposals and moves work on between two pauses: whoever stops one must be heard at once. */

import { describe, expect, it } from 'vitest';
import { demoHeader } from '../../../core/header/demo-header.ts';
import type { SearchInSlices } from '../../../core/moves/search-in-slices.ts';
import { HeaderMoveSearch } from '../../../core/moves/suggest-header-moves.ts';
import { MoveSearch } from '../../../core/moves/suggest-moves.ts';
import { ProposalSearch } from '../../../core/propose/propose-primaries.ts';
import { ReachSearch } from '../../../core/propose/reach/reachable-lengths.ts';
import { HeaderProposalSearch } from '../../../core/propose/whole/propose-header.ts';
import { limitHere, onCpu } from '../../cpu-time.ts';
import { seededRandom } from '../path/made-primaries.ts';
import { randomBank } from './made-banks.ts';
import { CLRS, headerWith, SOURCES } from './made-poses.ts';

/** A search is told to listen every five milliseconds; with a step of so many after that a stop is heard within twenty. */
const STEP_MS = 14;
/** A search takes the same steps every time, so that the least time of each is its own, whatever else ran or was collected meanwhile. */
const RUNS = 5;
/** Enough to come through all parts of the longest. */
const MOST_STEPS = 4000;

function stepsMs(make: () => SearchInSlices<unknown>): readonly number[] {
  const { ms, value: search } = onCpu(make);
  const steps = [ms];
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const { ms: stepMs, value: isThrough } = onCpu(() => search.look(() => true));
    steps.push(stepMs);
    if (isThrough) break;
  }
  return steps;
}

/** Looks on for so many steps and leaves it there: the steps of winding it up, and what it then takes to answer. */
function endMs(make: () => SearchInSlices<unknown>, looks: number): readonly number[] {
  const search = make();
  for (let look = 0; look < looks; look += 1) search.look(() => true);
  const steps: number[] = [];
  for (let isReady = false; !isReady; ) {
    const { ms, value } = onCpu(() => search.windUp(() => true));
    steps.push(ms);
    isReady = value;
  }
  steps.push(onCpu(() => search.soFar()).ms);
  return steps;
}

/** The least of each step over so many runs. */
function leastSteps(runs: readonly (readonly number[])[]): readonly number[] {
  const [first = []] = runs;
  for (const run of runs) expect(run).toHaveLength(first.length);
  return first.map((_ms, step) => Math.min(...runs.map((run) => run[step] ?? Number.POSITIVE_INFINITY)));
}

const random = seededRandom(5);
const header = headerWith(SOURCES.headerLike(random));
const tight = headerWith(SOURCES.tight(random));
const about = (lengthMm: number) => ({ kind: 'about', lengthMm, minusMm: 3, plusMm: 3 }) as const;
const bank = randomBank(seededRandom(99));
const demo = demoHeader('demo');

describe('between two pauses no search works on for long', () => {
  it.each([
    ['a proposal', () => new ProposalSearch(header, 'own', { clrs: CLRS, length: about(700) })],
    ['one that there is not', () => new ProposalSearch(header, 'own', { clrs: CLRS, length: about(300) })],
    ['the least', () => new ProposalSearch(tight, 'own', { clrs: CLRS })],
    ['which lengths there are', () => new ReachSearch(header, 'own', { clrs: CLRS })],
    ['a whole header', () => new HeaderProposalSearch(bank, { clrs: CLRS })],
    ['moves of a primary', () => new MoveSearch(demo, 'primary-3')],
    ['moves that keep a gap', () => new MoveSearch(demo, 'primary-3', { clearanceKeptMm: 3 })],
    ['moves of all', () => new HeaderMoveSearch(demo)],
  ] as const)(
    '%s',
    (_, make) => {
      const own = leastSteps(Array.from({ length: RUNS }, () => stepsMs(make)));
      const longest = Math.max(...own);
      expect(longest, `step ${own.indexOf(longest)} of ${own.length}`).toBeLessThan(limitHere(STEP_MS));
    },
    60 * 60_000,
  );
});

/** Places in a search where it is left: early, and when it has a full list of moves. */
const LOOKS = [40, 200, 1000];

describe('a search that is left answers without working on for long', () => {
  it.each([
    ['moves of a primary', () => new MoveSearch(demo, 'primary-3')],
    ['moves that keep a gap', () => new MoveSearch(demo, 'primary-3', { clearanceKeptMm: 3 })],
    ['moves of all', () => new HeaderMoveSearch(demo)],
    ['a proposal', () => new ProposalSearch(header, 'own', { clrs: CLRS, length: about(700) })],
    ['a whole header', () => new HeaderProposalSearch(bank, { clrs: CLRS })],
  ] as const)('%s', (_, make) => {
    for (const looks of LOOKS) {
      const own = leastSteps(Array.from({ length: RUNS }, () => endMs(make, looks)));
      expect(Math.max(...own), `left after ${looks}`).toBeLessThan(limitHere(STEP_MS));
    }
  });
});
