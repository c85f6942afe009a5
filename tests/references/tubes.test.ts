/** Tube, pipe and sheet sizes against published tables; each source stands beside its check. */

import { describe, expect, test } from 'vitest';
import { type SheetGaugeSystem, sheetThickness } from '../../core/stock/sheet-gauges.ts';
import { BWG_WALLS, bwgWall, massPerMetreKg, PIPE_SIZES, pipeOd } from '../../core/stock/tube-sizes.ts';
import { mmOf } from '../../core/units/length.ts';
import { expectWithin, expectWithinRelative } from '../tolerance.ts';

describe('walls of tube by gauge', () => {
  // BWG: millimetres as in projectmaterials' BWG chart; inches also in engineeringtoolbox.com d_508 and Holtzapffel's table
  // (chestofbooks.com).
  test.each([
    [10, 0.134, 3.404],
    [11, 0.12, 3.048],
    [12, 0.109, 2.769],
    [13, 0.095, 2.413],
    [14, 0.083, 2.108],
    [15, 0.072, 1.829],
    [16, 0.065, 1.651],
    [17, 0.058, 1.473],
    [18, 0.049, 1.245],
    [19, 0.042, 1.067],
    [20, 0.035, 0.889],
    [21, 0.032, 0.813],
    [22, 0.028, 0.711],
  ])('BWG %d is %d in, %d mm', (gauge, wallIn, wallMm) => {
    const wall = bwgWall(gauge);
    expect(wall).toEqual({ value: wallIn, unit: 'in' });
    expectWithin(wall === null ? Number.NaN : mmOf(wall), wallMm, 0.00051);
  });

  test('a higher gauge is a thinner wall, and what is not in the table is not guessed', () => {
    for (const [index, { wall }] of BWG_WALLS.entries()) {
      expect(wall.value).toBeLessThan(BWG_WALLS[index - 1]?.wall.value ?? 1);
    }
    expect(bwgWall(9)).toBeNull();
    expect(bwgWall(16.5)).toBeNull();
  });
});

describe('thickness of sheet by gauge', () => {
  const charts: readonly [SheetGaugeSystem, readonly (readonly [number, number])[]][] = [
    // pipingmaterial.ae, stainless chart (US standard gauge).
    [
      'stainlessUsStandard',
      [
        [10, 0.1406],
        [11, 0.125],
        [12, 0.1094],
        [13, 0.0937],
        [14, 0.0781],
        [15, 0.0703],
        [16, 0.0625],
        [17, 0.0562],
        [18, 0.05],
        [19, 0.0437],
        [20, 0.0375],
      ],
    ],
    // infinigral.com/melder/gage.htm: the other chart for stainless in trade use.
    [
      'stainlessMelder',
      [
        [10, 0.135],
        [11, 0.12],
        [12, 0.1054],
        [14, 0.0751],
        [16, 0.0595],
        [18, 0.048],
        [20, 0.0355],
      ],
    ],
    // Manufacturers' standard gauge for steel: 20 read in a chart, 16 and 18 from memory.
    [
      'steelManufacturers',
      [
        [16, 0.0598],
        [18, 0.0478],
        [20, 0.0359],
      ],
    ],
  ];

  test.each(charts)('%s', (system, rows) => {
    for (const [gauge, thicknessIn] of rows) {
      expect(sheetThickness(system, gauge)).toEqual({ value: thicknessIn, unit: 'in' });
    }
    expect(sheetThickness(system, 99)).toBeNull();
  });

  test('16 gauge is another thickness on tube than on any sheet', () => {
    for (const [system] of charts) expect(sheetThickness(system, 16)?.value).not.toBe(bwgWall(16)?.value);
  });
});

describe('pipe', () => {
  // ASME B36.10/B36.19: to 0.1 mm as at wermac.org, to 0.01 mm as in ASTM A312's table.
  test.each([
    [0.75, 26.7, 26.67],
    [1, 33.4, 33.4],
    [1.25, 42.2, 42.16],
    [1.5, 48.3, 48.26],
    [2, 60.3, 60.33],
    [2.5, 73, 73.03],
    [3, 88.9, 88.9],
    [3.5, 101.6, 101.6],
    [4, 114.3, 114.3],
    [5, 141.3, 141.3],
    [6, 168.3, 168.28],
  ])('NPS %d has an OD of %d mm (%d mm)', (nps, coarseMm, fineMm) => {
    const od = pipeOd(nps);
    expectWithin(od === null ? Number.NaN : mmOf(od), coarseMm, 0.0501);
    expectWithin(od === null ? Number.NaN : mmOf(od), fineMm, 0.0051);
  });

  test('sizes are in order and what is not in the table is not guessed', () => {
    for (const [index, { od }] of PIPE_SIZES.entries()) {
      expect(od.value).toBeGreaterThan(PIPE_SIZES[index - 1]?.od.value ?? 0);
    }
    expect(pipeOd(7)).toBeNull();
  });
});

describe('mass of tube', () => {
  // ASTM A312's table (scribd 190333589), kg/m; seven rows recomputed with 7850 kg/m3, +-0.005 and one place less at 28.3.
  test.each([
    [48.26, 2.77, 3.11, 0.0051],
    [48.26, 3.69, 4.06, 0.0051],
    [60.33, 2.77, 3.93, 0.0051],
    [60.33, 3.92, 5.45, 0.0051],
    [88.9, 3.05, 6.46, 0.0051],
    [114.3, 3.05, 8.37, 0.0051],
    [168.28, 7.12, 28.3, 0.051],
  ])('%d x %d mm weighs %d kg/m', (odMm, wallMm, massKg, toleranceKg) => {
    const actualKg = massPerMetreKg({ odMm, wallMm, densityKgM3: 7850 });
    expectWithinRelative(actualKg, massKg, toleranceKg / massKg);
  });
});
