/** Firing intervals as they are typed, and what follows from them at the collectors. */

import { describe, expect, it, test } from 'vitest';
import { describeProblem } from '../../../core/describe-problem.ts';
import { applyEdit } from '../../../core/edits/apply-edit.ts';
import { setEngineEdit } from '../../../core/edits/header-edits.ts';
import { formatFiringIntervals, parseFiringIntervals, withFiring } from '../../../core/gas/firing-intervals.ts';
import { COMMON_ORDERS } from '../../../core/gas/firing-order.ts';
import { pulseTiming } from '../../../core/gas/pulse-timing.ts';
import { engineOf } from '../../../core/gas/usual-engine.ts';
import { demoHeader } from '../../../core/header/demo-header.ts';
import { readHeader, writeHeader } from '../../../core/header/file/header-file.ts';
import { foundValue } from '../path/made-primaries.ts';

const SIX = [1, 6, 5, 4, 3, 2];
const demo = demoHeader('demo');
const even = engineOf(demo);

describe('typed intervals', () => {
  test.each([
    ['150-90', SIX, [150, 90, 150, 90, 150, 90]],
    ['150 90 150 90 150 90', SIX, [150, 90, 150, 90, 150, 90]],
    [' 315° – 405° ', [1, 2], [315, 405]],
    ['102.5, 617.5', [1, 2], [102.5, 617.5]],
    ['0-720', [1, 2], [0, 720]],
    [
      '102.86-102.86-102.86-102.86-102.86-102.85-102.85',
      [1, 2, 3, 4, 5, 6, 7],
      [102.86, 102.86, 102.86, 102.86, 102.86, 102.85, 102.85],
    ],
  ])('%j is read', (text, order, intervals) => {
    expect(parseFiringIntervals(text, order)).toEqual({ ok: true, value: intervals });
  });

  test.each(['even', ' Even ', '', '120', '120-120-120-120-120-120'])('%j: the engine fires evenly', (text) => {
    expect(parseFiringIntervals(text, SIX)).toEqual({ ok: true, value: null });
  });

  test.each([
    ['150-90-150', SIX, '780 in all'],
    ['150-80', SIX, 'add up to 720, two turns of the crank; it is 690 in all'],
    ['315-400', [1, 2], '715 in all'],
    ['315-405-0', [1, 2], '3 for 2 cylinders'],
    ['180-540', [1], '2 for 1 cylinder'],
    ['90-150-90-150', SIX, '4 for 6 cylinders'],
    ['315-4o5', [1, 2], '"4o5"'],
    ['315--405deg', [1, 2], '"405deg"'],
    ['1e3-4', [1, 2], '"1e3"'],
  ])('%j is refused', (text, order, said) => {
    const read = parseFiringIntervals(text, order);
    if (read.ok) throw new Error('it was taken');
    const [problem] = read.problems;
    if (problem === undefined) throw new Error('a problem');
    expect(describeProblem(problem).toLowerCase()).toContain(said.toLowerCase());
  });

  it('are read back as they are shown', () => {
    for (const { order, intervalsDeg } of COMMON_ORDERS) {
      const engine = withFiring(even, order, intervalsDeg ?? null);
      expect(parseFiringIntervals(formatFiringIntervals(engine), order)).toEqual({
        ok: true,
        value: intervalsDeg ?? null,
      });
    }
  });
});

describe('a header with them', () => {
  const changed = (intervalsDeg: readonly number[]) =>
    applyEdit(demo, setEngineEdit(withFiring(even, [1, 3, 2, 4], intervalsDeg)));
  const uneven = foundValue(changed([270, 180, 90, 180])).header;

  it('is written and read, and without them it is the same file as before there were any', () => {
    expect(foundValue(readHeader(writeHeader(uneven)))).toEqual(uneven);
    const back = foundValue(applyEdit(uneven, setEngineEdit(withFiring(engineOf(uneven), [1, 3, 4, 2], null)))).header;
    expect(writeHeader(back)).not.toContain('firingIntervalsDeg');
    expect(back).toEqual(foundValue(applyEdit(demo, setEngineEdit(withFiring(even, [1, 3, 4, 2], null)))).header);
  });

  test.each([
    [[270, 180, 90], 'firing intervals'],
    [[270, 180, 90, 170], '720'],
    [[270, 180, 90, 90, 90], 'firing intervals'],
    [[-90, 270, 270, 270], 'at least 0'],
    [[Number.NaN, 270, 270, 270], 'Firing interval 1 of the engine needs an ordinary number'],
  ])('a file with the intervals %j is refused in words', (intervals, said) => {
    const text = writeHeader(uneven).replace(
      /"firingIntervalsDeg":\s*\[[^\]]*\]/,
      `"firingIntervalsDeg":${JSON.stringify(intervals)}`,
    );
    const read = readHeader(text);
    if (read.ok) throw new Error('it was read');
    expect(read.problems.map(describeProblem).join(' ')).toContain(said);
    expect(changed(intervals).ok).toBe(false);
  });

  it('pulses of equal lengths come as the cylinders fire: 1, 3, 2, 4 at 0, 270, 450 and 540', () => {
    const { collectors } = pulseTiming(uneven, { engine: engineOf(uneven) });
    const fires = collectors.flatMap(({ pulses }) => pulses.map(({ cylinder, firesDeg }) => [cylinder, firesDeg]));
    expect(fires).toEqual([
      [1, 0],
      [3, 270],
      [2, 450],
      [4, 540],
    ]);
    expect(collectors.flatMap((one) => one.equalSpacingsDeg)).toEqual([270, 180, 90, 180]);
  });

  it('two that fire together are 0 apart, and all is still 720', () => {
    const both = foundValue(changed([0, 360, 0, 360])).header;
    const { collectors } = pulseTiming(both, { engine: engineOf(both) });
    expect(collectors[0]?.equalSpacingsDeg).toEqual([0, 360, 0, 360]);
  });
});
