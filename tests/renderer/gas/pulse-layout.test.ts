/** Pulses on a line of 720 degrees: in their order, within the picture, and no figure where there is no room for it. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CollectorPulses } from '../../../core/index.ts';
import { pulseLayout } from '../../../renderer/gas/pulse-layout.ts';
import { expectWithin } from '../../tolerance.ts';

/** As many cylinders as there are degrees given, each so much late. */
function collectorOf(lateDeg: readonly number[]): CollectorPulses {
  const step = 720 / lateDeg.length;
  const spacings = (at: readonly number[]) =>
    at.length < 2 ? [] : at.map((deg, index) => (at[index + 1] ?? (at[0] ?? 0) + 720) - deg);
  const firesDeg = lateDeg.map((_, index) => index * step);
  return {
    collectorId: 'c',
    name: 'C',
    pulses: lateDeg.map((late, index) => ({
      primaryId: `p${index}`,
      name: `Cylinder ${index + 1}`,
      cylinder: index + 1,
      lengthMm: 800,
      firesDeg: index * step,
      lateDeg: late,
      lateS: 0,
    })),
    equalSpacingsDeg: spacings(firesDeg),
    builtSpacingsDeg: spacings(firesDeg.map((deg, index) => deg + (lateDeg[index] ?? 0))),
  };
}

describe('the line', () => {
  it('has the first pulse of equal lengths at 0 and the others evenly after it', () => {
    const { ticks, equal } = pulseLayout(collectorOf([0, 0, 0, 0]), 400);
    const places = equal.marks.map(({ x }) => x);
    expect(places).toEqual(ticks.slice(0, 4).map(({ x }) => x));
    expect(equal.spacings.map(({ text }) => text)).toEqual(['180°', '180°', '180°', '180°']);
  });

  it('shows a late pulse to the right, and one that comes before 0 at the end of the cycle', () => {
    const { equal, built, ticks } = pulseLayout(collectorOf([-2, 3, 0, 0]), 734);
    // 706 units for 720 degrees.
    expectWithin((built.marks[1]?.x ?? 0) - (equal.marks[1]?.x ?? 0), (3 * 706) / 720, 1e-9);
    expectWithin((ticks.at(-1)?.x ?? 0) - (built.marks[0]?.x ?? 0), (2 * 706) / 720, 1e-9);
  });

  it('keeps every mark and figure inside, whatever its width', () => {
    const late = fc.array(fc.double({ min: -40, max: 40, noNaN: true }), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(late, fc.integer({ min: 0, max: 2000 }), (lateDeg, width) => {
        const layout = pulseLayout(collectorOf(lateDeg), width);
        const most = Math.max(100, width);
        for (const lane of [layout.equal, layout.built]) {
          for (const { x } of [...lane.marks, ...lane.spacings]) {
            expect(x).toBeGreaterThanOrEqual(14 - 1e-9);
            expect(x).toBeLessThanOrEqual(most - 14 + 1e-9);
          }
        }
      }),
    );
  });

  it('names every mark by its cylinder, whatever its primary is called', () => {
    const { equal, built } = pulseLayout(collectorOf([0, 0, 0, 0]), 400);
    for (const { marks } of [equal, built]) expect(marks.map(({ cylinder }) => cylinder)).toEqual([1, 2, 3, 4]);
  });

  it('shows a tenth of a degree where equal spacings are no whole degrees', () => {
    const { equal } = pulseLayout(collectorOf([0, 0, 0, 0, 0, 0, 0]), 900);
    expect(new Set(equal.spacings.map(({ text }) => text))).toEqual(new Set(['102.9°']));
  });

  it('leaves out figures that would run into their neighbours', () => {
    const twelve = pulseLayout(collectorOf(Array.from({ length: 12 }, () => 0)), 200);
    expect(twelve.equal.spacings).toEqual([]);
    expect(pulseLayout(collectorOf(Array.from({ length: 12 }, () => 0)), 900).equal.spacings).toHaveLength(12);
  });
});
