/** Pulses at collectors: spacing from firing order and lengths. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pulseTiming } from '../../../core/gas/pulse-timing.ts';
import type { Engine } from '../../../core/header/engine.ts';
import type { Collector, Header, Primary } from '../../../core/header/header.ts';
import { expectWithin } from '../../tolerance.ts';
import { headerOf, primaryOf, straight } from '../path/made-primaries.ts';

const engineOf = (firingOrder: readonly number[], rpm = 6000): Engine => ({
  firingOrder,
  rpm,
  // gamma R T / M of 560 m/s squared exactly: chosen so that figures can be checked by hand.
  gasTemperature: { value: (560 ** 2 * 28.9) / (1.3 * 8.314462618 * 1000), unit: 'K' },
  gamma: 1.3,
  molarMass: 28.9,
});

const LENGTH_MM = 800;

/** Primaries by cylinder, in collectors as they are grouped; lengths by cylinder where they differ. */
function engineHeader(
  groups: readonly (readonly number[])[],
  lengthMm: (cylinder: number) => number = () => LENGTH_MM,
): Header {
  const cylinders = groups.flat();
  const primaries = cylinders.map(
    (cylinder): Primary =>
      primaryOf([straight(lengthMm(cylinder))], {
        id: `p${cylinder}`,
        name: String(cylinder),
        inletId: `i${cylinder}`,
      }),
  );
  const slip = { deeper: { value: 0, unit: 'mm' }, shallower: { value: 0, unit: 'mm' } } as const;
  const collectors = groups.map(
    (group, index): Collector => ({
      id: `c${index}`,
      name: `Collector ${index + 1}`,
      inlets: group.map((cylinder) => ({ id: `i${cylinder}`, name: String(cylinder), place: null, slip })),
    }),
  );
  const target = { kind: 'typed', length: { value: LENGTH_MM, unit: 'mm' } } as const;
  return headerOf(primaries, { collectors }, { target });
}

const spacingsOf = (header: Header, engine: Engine) =>
  pulseTiming(header, { engine }).collectors.map((one) => one.builtSpacingsDeg);

describe('with all lengths equal', () => {
  it('a four fires 180 apart at one collector, and its pairs 360', () => {
    const engine = engineOf([1, 3, 4, 2]);
    expect(spacingsOf(engineHeader([[1, 2, 3, 4]]), engine)).toEqual([[180, 180, 180, 180]]);
    expect(
      spacingsOf(
        engineHeader([
          [1, 4],
          [2, 3],
        ]),
        engine,
      ),
    ).toEqual([
      [360, 360],
      [360, 360],
    ]);
  });

  it('the halves of a straight six fire 240 apart', () => {
    expect(
      spacingsOf(
        engineHeader([
          [1, 2, 3],
          [4, 5, 6],
        ]),
        engineOf([1, 5, 3, 6, 2, 4]),
      ),
    ).toEqual([
      [240, 240, 240],
      [240, 240, 240],
    ]);
  });

  it('a cross-plane V8 fires 270 180 90 180 in its odd bank, 90 180 270 180 in the other', () => {
    const engine = engineOf([1, 8, 4, 3, 6, 5, 7, 2]);
    const { collectors } = pulseTiming(
      engineHeader([
        [1, 3, 5, 7],
        [2, 4, 6, 8],
      ]),
      { engine },
    );
    expect(collectors.map(({ equalSpacingsDeg }) => equalSpacingsDeg)).toEqual([
      [270, 180, 90, 180],
      [90, 180, 270, 180],
    ]);
    const fires = collectors.flatMap(({ pulses }) => pulses.map(({ cylinder, firesDeg }) => `${cylinder}:${firesDeg}`));
    expect(fires.toSorted()).toEqual(['1:0', '2:630', '3:270', '4:180', '5:450', '6:360', '7:540', '8:90']);
  });

  it('one bank alone is timed by the whole order', () => {
    expect(spacingsOf(engineHeader([[1, 3, 5, 7]]), engineOf([1, 8, 4, 3, 6, 5, 7, 2]))).toEqual([[270, 180, 90, 180]]);
  });
});

it('spacings sum to 720 at every collector, whatever order, lengths and speed', () => {
  const orders = fc.integer({ min: 2, max: 12 }).chain((count) => {
    const all = Array.from({ length: count }, (_, index) => index + 1);
    return fc.tuple(
      fc.shuffledSubarray(all, { minLength: count }),
      fc.array(fc.double({ min: 200, max: 1500, noNaN: true }), { minLength: count, maxLength: count }),
    );
  });
  fc.assert(
    fc.property(orders, fc.integer({ min: 500, max: 15_000 }), ([order, lengths], rpm) => {
      const header = engineHeader(
        [order.filter((n) => n % 2 === 0), order.filter((n) => n % 2 === 1)],
        (n) => lengths[n - 1] ?? 500,
      );
      for (const { pulses, equalSpacingsDeg, builtSpacingsDeg } of pulseTiming(header, { engine: engineOf(order, rpm) })
        .collectors) {
        expect(equalSpacingsDeg.length).toBe(pulses.length < 2 ? 0 : pulses.length);
        if (pulses.length < 2) continue;
        for (const spacings of [equalSpacingsDeg, builtSpacingsDeg]) {
          expectWithin(
            spacings.reduce((sum, deg) => sum + deg, 0),
            720,
            1e-9,
          );
        }
      }
    }),
  );
});

it('an inch of 560 m/s at 6000 rpm comes 45.357 us and 1.6329 degrees late', () => {
  const header = engineHeader([[1, 2, 3, 4]], (cylinder) => (cylinder === 3 ? LENGTH_MM + 25.4 : LENGTH_MM));
  const timing = pulseTiming(header, { engine: engineOf([1, 3, 4, 2]) });
  const late = timing.collectors[0]?.pulses.find(({ cylinder }) => cylinder === 3);
  expectWithin(timing.soundMs, 560, 1e-9);
  expectWithin((late?.lateS ?? 0) * 1e6, 45.357, 1e-3);
  expectWithin(late?.lateDeg ?? 0, 1.6329, 1e-4);
  const spacings = timing.collectors[0]?.builtSpacingsDeg ?? [];
  expectWithin(spacings[0] ?? 0, 181.6329, 1e-4);
  expectWithin(spacings[1] ?? 0, 178.3671, 1e-4);
});

it('what was measured takes the place of what the pieces come to', () => {
  const header = engineHeader([[1, 2, 3, 4]]);
  const timing = pulseTiming(header, {
    engine: engineOf([1, 3, 4, 2]),
    measuredMm: new Map([['p3', LENGTH_MM + 25.4]]),
  });
  expectWithin(timing.collectors[0]?.pulses.find(({ cylinder }) => cylinder === 3)?.lengthMm ?? 0, 825.4, 1e-9);
});

it("a primary whose name is no cylinder is said, and so is one that names another's", () => {
  const header = engineHeader([[1, 2, 3, 4]]);
  const named = (names: readonly string[]) => ({
    ...header,
    primaries: header.primaries.map((primary, index) => ({ ...primary, name: names[index] ?? '' })),
  });
  const timing = pulseTiming(named(['Cyl 1', 'left 2', 'rear', '1']), { engine: engineOf([1, 3, 4, 2]) });
  expect(timing.collectors.flatMap(({ pulses }) => pulses.map(({ cylinder }) => cylinder))).toEqual([1, 2]);
  expect(timing.withoutCylinder.map(({ name }) => name)).toEqual(['rear']);
  expect(timing.sameCylinder.map(({ id }) => id)).toEqual(['p4']);
});
