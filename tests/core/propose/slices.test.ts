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
      const runs = Array.from({ length: RUNS }, () => stepsMs(make));
      const [first = []] = runs;
      for (const run of runs) expect(run).toHaveLength(first.length);
      const own = first.map((_ms, step) => Math.min(...runs.map((run) => run[step] ?? Number.POSITIVE_INFINITY)));
      const longest = Math.max(...own);
      expect(longest, `step ${own.indexOf(longest)} of ${own.length}`).toBeLessThan(limitHere(STEP_MS));
    },
    60 * 60_000,
  );
});
