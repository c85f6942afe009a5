/** Steps and ticks of a length scale that fall on marks a tape measure has. */

import { finenessMm, type LengthStyle, MM_PER_INCH } from '../../../core/index.ts';

const FRACTION_STEPS_IN = [1 / 64, 1 / 32, 1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2, 3, 6, 12, 24, 60, 120, 240, 600] as const;
const DECIMAL_STEPS_IN = [
  ...[0.0001, 0.0002, 0.0005, 0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1],
  ...[0.25, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500],
] as const;
const STEPS_MM = [
  ...[0.01, 0.02, 0.05, 0.1, 0.2, 0.5],
  ...[1, 2, 5, 10, 20, 50, 100, 200, 500, 1_000, 2_000, 5_000, 10_000],
] as const;

/** None finer than what is shown: two marks with the same figure would be no help. */
function stepsMm(style: LengthStyle): readonly number[] {
  const leastMm = finenessMm(style) * (1 - 1e-9);
  return allStepsMm(style).filter((step) => step >= leastMm);
}

function allStepsMm(style: LengthStyle): readonly number[] {
  switch (style.kind) {
    case 'fraction':
      return FRACTION_STEPS_IN.map((step) => step * MM_PER_INCH);
    case 'decimalInch':
      return DECIMAL_STEPS_IN.map((step) => step * MM_PER_INCH);
    case 'mm':
      return STEPS_MM;
  }
}

/** The finest step, in mm, that is at least `leastMm`; the coarsest one there is when none is. */
export function niceStepMm(leastMm: number, style: LengthStyle): number {
  const steps = stepsMm(style);
  return steps.find((step) => step >= leastMm * (1 - 1e-9)) ?? (steps[steps.length - 1] as number);
}

export interface TickRange {
  readonly fromMm: number;
  readonly toMm: number;
  /** Drawn width of the range, in CSS pixels. */
  readonly widthPx: number;
}

/**
 * Ticks from `fromMm` to `toMm` (both included where they fall on a step), in mm, ascending, at whole multiples of one
 * nice step and at least `gapPx` pixels apart. Empty when the range or the width is not above zero.
 */
export function lengthTicksMm(range: TickRange, gapPx: number, style: LengthStyle): readonly number[] {
  const spanMm = range.toMm - range.fromMm;
  if (!(spanMm > 0) || !(range.widthPx > 0)) return [];
  return multiplesMm(range, niceStepMm((spanMm * gapPx) / range.widthPx, style));
}

function multiplesMm({ fromMm, toMm }: TickRange, stepMm: number): readonly number[] {
  const first = Math.ceil(fromMm / stepMm - 1e-9);
  const last = Math.floor(toMm / stepMm + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => (first + index) * stepMm);
}

/**
 * The finest ticks whose labels stand clear of each other, as `lengthTicksMm`; `labelPx` gives the width of a label.
 * Zero alone when even the coarsest would meet.
 */
export function labelTicksMm(range: TickRange, labelPx: (mm: number) => number, style: LengthStyle): readonly number[] {
  const perMm = range.widthPx / (range.toMm - range.fromMm);
  for (const stepMm of stepsMm(style)) {
    // A hundred labels never fit, and need not be made to see it.
    if (!((range.toMm - range.fromMm) / stepMm < 100)) continue;
    const ticks = multiplesMm(range, stepMm);
    const widestPx = Math.max(0, ...ticks.map(labelPx));
    if (ticks.length > 1 && stepMm * perMm >= widestPx) return ticks;
  }
  return range.fromMm <= 0 && range.toMm >= 0 ? [0] : [];
}
