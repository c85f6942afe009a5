/** Sound, crank and tuned lengths, thinning of bends, against published figures; each source stands beside its check. */

import { describe, expect, test } from 'vitest';
import { crankDegrees, GAS_CONSTANT, speedOfSound, travelTimeS } from '../../core/gas/sound.ts';
import { endCorrectionMm, tunedBore, tunedLength } from '../../core/gas/tuned-length.ts';
import { wallThinning } from '../../core/gas/wall-thinning.ts';
import { kelvinOf, type TunedInputs } from '../../core/header/engine.ts';
import { MM_PER_INCH, millimetres } from '../../core/units/length.ts';
import { expectWithin, expectWithinDeg, expectWithinRelative } from '../tolerance.ts';

/** Metres a second compare as mm do. */
const expectSpeed = expectWithin;

describe('speed of sound', () => {
  test('goes by the gas constant of CODATA 2018', () => {
    expect(GAS_CONSTANT).toBe(8.314462618);
  });

  // U.S. Standard Atmosphere 1976, eq. 50; its own gas constant of 8314.32 is 0.002 % smaller. Value from memory, recomputed.
  test('standard atmosphere at 288.15 K: 340.294 m/s', () => {
    expectSpeed(speedOfSound({ temperatureK: 288.15, gamma: 1.4, molarMass: 28.9644 }), 340.294, 5e-3);
  });

  // Kutz (ed.), Mechanical Engineers' Handbook vol. 4, Table 6.
  test.each([
    [288.15, 340.3],
    [281.65, 336.4],
    [275.15, 332.5],
    [268.66, 328.6],
    [262.17, 324.6],
    [255.68, 320.6],
    [249.19, 316.5],
    [242.7, 312.3],
    [236.22, 308.1],
    [229.73, 303.9],
    [223.25, 299.5],
    [216.77, 295.2],
    [216.65, 295.1],
  ])('standard atmosphere at %d K: %d m/s', (temperatureK, speed) => {
    expectSpeed(speedOfSound({ temperatureK, gamma: 1.4, molarMass: 28.9644 }), speed, 0.06);
  });

  // gamma of air: NBS Circular 564 (1955) to 1000 K; above it a fit after Kyle. Speeds by NASA polynomials as a second method.
  test.each([
    [300, 1.4, 347.2, 0.2],
    [600, 1.376, 486.8, 0.2],
    [800, 1.354, 557.6, 0.2],
    [900, 1.344, 589.3, 0.2],
    [1000, 1.336, 619.3, 0.2],
    [1100, 1.331, 648.3, 0.6],
    [1200, 1.324, 675.3, 0.6],
  ])('hot air at %d K, gamma %d: %d m/s', (temperatureK, gamma, speed, tolerance) => {
    expectSpeed(speedOfSound({ temperatureK, gamma, molarMass: 28.9647 }), speed, tolerance);
  });

  // Burnt gas of CH1.85 by NASA polynomials of its parts (Cantera); of C8H18 at 1000 K.
  test.each([
    [600, 1.3344, 28.92, 479.8],
    [800, 1.3116, 28.92, 549.2],
    [900, 1.3013, 28.92, 580.3],
    [1000, 1.2927, 28.92, 609.6],
    [1200, 1.28, 28.92, 664.5],
    [1000, 1.2934, 28.607, 613.1],
  ])('burnt gas at %d K, gamma %d, M %d: %d m/s', (temperatureK, gamma, molarMass, speed) => {
    expectWithinRelative(speedOfSound({ temperatureK, gamma, molarMass }), speed, 0.005);
  });

  // Speed of sound as an encyclopaedia gives it for 0 C, with R 287.05 and kappa 1.402.
  test('air at 0 C: 331.5 m/s', () => {
    expectSpeed(speedOfSound({ temperatureK: 273.15, gamma: 1.402, molarMass: 8314.462618 / 287.05 }), 331.5, 0.3);
  });

  test('temperatures in three scales: 0 C, 32 F and 273.15 K are one', () => {
    expect([
      kelvinOf({ value: 0, unit: 'C' }),
      kelvinOf({ value: 32, unit: 'F' }),
      kelvinOf({ value: 273.15, unit: 'K' }),
    ]).toEqual([273.15, 273.15, 273.15]);
  });
});

describe('time and crank', () => {
  test.each([
    [3000, 18],
    [6000, 36],
    [9000, 54],
  ])('%d rpm: %d degrees a millisecond, exactly 6 a second and rpm', (rpm, deg) => {
    expect(crankDegrees(1, rpm)).toBe(6 * rpm);
    expectWithinDeg(crankDegrees(0.001, rpm), deg, 1e-12);
  });

  test.each([
    [25.4, 560, 6000, 45.357, 1.6329, 1e-3],
    [100, 500, 7000, 200, 8.4, 1e-9],
    [10, 600, 8000, 1000 / 60, 0.8, 1e-9],
  ])('%d mm at %d m/s and %d rpm: %d us, %d degrees', (lengthMm, soundMs, rpm, us, deg, tolerance) => {
    const timeS = travelTimeS(lengthMm, soundMs);
    expectWithin(timeS * 1e6, us, tolerance);
    expectWithinDeg(crankDegrees(timeS, rpm), deg, tolerance);
  });
});

const CC_500 = { value: 500, unit: 'ml' } as const;
const INPUTS: TunedInputs = {
  rpm: 7000,
  openingDeg: 80,
  travelDeg: 120,
  order: 1,
  soundMs: 560,
  port: millimetres(0),
  cylinder: CC_500,
};
const tuned = (formula: Parameters<typeof tunedLength>[0], inputs: Partial<TunedInputs>) => {
  const found = tunedLength(formula, { ...INPUTS, ...inputs });
  if (!found.ok) throw new Error('refused');
  return found.value;
};

describe('tuned lengths', () => {
  // Exercise after H. Heisler, Advanced Engine Technology (from memory), intake; and the identity for exhausts.
  test.each([
    [85, 330, 2000, 1169, 0.5],
    [85, 330, 3000, 779, 0.5],
    [85, 330, 4000, 584, 0.5],
    [120, 560, 7000, 800, 0.05],
    [120, 518, 6000, 863.3, 0.05],
  ])('wave over %d degrees at %d m/s and %d rpm: %d mm', (travelDeg, soundMs, rpm, lengthMm, tolerance) => {
    expectWithin(tuned('waveTravel', { travelDeg, soundMs, rpm }).lengthMm, lengthMm, tolerance);
  });

  // A. G. Bell, Four-Stroke Performance Tuning (from memory), with the bore for 500 cc.
  test.each([
    [80, 7000, 28.571, 1.671],
    [70, 6000, 32.417, 1.578],
    [85, 8500, 23.5, 1.824],
    [60, 5500, 34.091, 1.542],
  ])('valve opening at %d and %d rpm: %d in from the valve, bore %d in', (openingDeg, rpm, lengthIn, boreIn) => {
    const { fromValveMm } = tuned('valveTiming', { openingDeg, rpm });
    expectWithin(fromValveMm / MM_PER_INCH, lengthIn, 5e-4);
    expectWithin(tunedBore(CC_500, { fromValveMm, secondMm: null, boreMm: 40 }).boreMm / MM_PER_INCH, boreIn, 5e-4);
  });

  // After Bell 1985 (second-hand): first pipes of 15 in, then P - 15.
  test.each([
    [80, 7000, 13.571],
    [70, 6000, 17.417],
    [56, 6500, 12.862],
  ])('two stages, valve opening at %d and %d rpm: 15 in, then %d in', (openingDeg, rpm, secondIn) => {
    const { fromValveMm, secondMm } = tuned('twoStage', { openingDeg, rpm });
    expectWithin(fromValveMm / MM_PER_INCH, 15, 1e-9);
    expectWithin((secondMm ?? 0) / MM_PER_INCH, secondIn, 5e-4);
  });

  // The bore goes by the whole way to the last collector, which both rules have the same: 15 in alone would ask for 2.2 in.
  test.each([
    [80, 7000, 1.671],
    [70, 6000, 1.578],
  ])('two stages, valve opening at %d and %d rpm: bore %d in, as of one pipe', (openingDeg, rpm, boreIn) => {
    const found = tuned('twoStage', { openingDeg, rpm });
    expectWithin(tunedBore(CC_500, { ...found, boreMm: 40 }).boreMm / MM_PER_INCH, boreIn, 5e-4);
  });

  // f = c / 4L: 0.8 m at 560 m/s sounds at 175 Hz, which a cylinder fires at 21,000 rpm.
  test('quarter wave of 0.8 m: 175 Hz', () => {
    expectWithin(tuned('quarterWave', { soundMs: 560, rpm: 21_000, order: 1 }).lengthMm, 800, 1e-9);
    expectWithin(tuned('quarterWave', { soundMs: 560, rpm: 7000, order: 3 }).lengthMm, 800, 1e-9);
  });

  // Acoustics (from memory): 0.6133 r unflanged, 0.8216 r flanged.
  test('end corrections', () => {
    expectWithin(endCorrectionMm(2, false), 0.6133, 1e-9);
    expectWithin(endCorrectionMm(2, true), 0.8216, 1e-9);
  });

  // J. McFarland (second-hand): 88,200 x area / displacement.
  test.each([
    [1.625, 3692],
    [1.75, 4321],
    [1.875, 5000],
  ])('peak torque of 43.75 in3 through %d x 0.049 in: %d rpm', (odIn, rpm) => {
    const boreMm = (odIn - 2 * 0.049) * MM_PER_INCH;
    const cylinder = { value: 43.75, unit: 'in3' } as const;
    expectWithin(tunedBore(cylinder, { fromValveMm: 800, secondMm: null, boreMm }).peakTorqueRpm, rpm, 0.6);
  });
});

// The rule of a bending tool maker: (Ro - CLR) / Ro.
test.each([
  [1.75, 0.065, 3, 22.581, 0.05032],
  [1.5, 0.065, 2.5, 23.077, 0.05],
])('%d x %d in on %d in CLR thins by %d %% to %d in', (odIn, wallIn, clrIn, percent, leftIn) => {
  const { share, wallMm } = wallThinning(
    { odMm: odIn * MM_PER_INCH, wallMm: wallIn * MM_PER_INCH },
    clrIn * MM_PER_INCH,
  );
  expectWithin(100 * share, percent, 5e-4);
  expectWithin(wallMm / MM_PER_INCH, leftIn, 5e-6);
});
