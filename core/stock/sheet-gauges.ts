/** Sheet gauges, kept apart from tube gauges because the same number means another thickness. */

import { inches, type Length } from '../units/length.ts';

/** Two charts for stainless sheet are in trade use, so a gauge alone does not say a thickness. */
export type SheetGaugeSystem = 'stainlessUsStandard' | 'stainlessMelder' | 'steelManufacturers';

/**
 * Thickness in inches by gauge. Sources: stainless by US standard gauge, pipingmaterial.ae stainless chart; the other
 * stainless chart, infinigral.com/melder/gage.htm; steel by the manufacturers' standard gauge (16 and 18 from memory).
 */
const THICKNESS_IN: Readonly<Record<SheetGaugeSystem, Readonly<Record<number, number>>>> = {
  stainlessUsStandard: {
    10: 0.1406,
    11: 0.125,
    12: 0.1094,
    13: 0.0937,
    14: 0.0781,
    15: 0.0703,
    16: 0.0625,
    17: 0.0562,
    18: 0.05,
    19: 0.0437,
    20: 0.0375,
  },
  stainlessMelder: { 10: 0.135, 11: 0.12, 12: 0.1054, 14: 0.0751, 16: 0.0595, 18: 0.048, 20: 0.0355 },
  steelManufacturers: { 16: 0.0598, 18: 0.0478, 20: 0.0359 },
};

/** Thickness of sheet of this gauge; null if the chart has none. */
export function sheetThickness(system: SheetGaugeSystem, gauge: number): Length | null {
  const thicknessIn = THICKNESS_IN[system][gauge];
  return thicknessIn === undefined ? null : inches(thicknessIn);
}
