/** What a figure may have been meant to be, when it was not typed as it was meant. */

import { type Length, type LengthUnit, mmOf, withoutNoise } from '../../units/length.ts';

export interface LengthSlip {
  readonly kind: 'fraction' | 'unit';
  /** What was meant. */
  readonly length: Length;
}

/** Angles that bends are bought at and cut to, in degrees. */
export const USUAL_ANGLES_DEG: readonly number[] = [10, 15, 20, 22.5, 30, 45, 60, 75, 90, 120, 135, 150, 180];

/** Nothing shorter or longer was meant to be a straight of a header, mm. */
const SHORTEST_MM = 3;
const LONGEST_MM = 3000;

/**
 * The lengths that may have been meant where `typed` stands: one step of the fraction or of the whole off, whole and numerator
 * or two digits changed about, the point slipped by a place, or the other unit. Each once, none the same as typed.
 */
export function lengthSlips(typed: Length): readonly LengthSlip[] {
  const other: LengthUnit = typed.unit === 'in' ? 'mm' : 'in';
  const fractions = (typed.unit === 'in' ? inchSlips(typed.value) : millimetreSlips(typed.value)).map(withoutNoise);
  const slips: LengthSlip[] = [
    { kind: 'unit', length: { value: typed.value, unit: other } },
    ...[...new Set(fractions)].map((value): LengthSlip => ({ kind: 'fraction', length: { value, unit: typed.unit } })),
  ];
  return slips.filter(({ length }) => {
    const mm = mmOf(length);
    return mm >= SHORTEST_MM && mm <= LONGEST_MM && Math.abs(mm - mmOf(typed)) > 1e-6;
  });
}

/** Steps that a reader of a rule slips by, in sixteenths of an inch: a sixteenth to a whole. */
const SIXTEENTHS = [1, 2, 4, 8, 16];
const FINEST_PER_INCH = 64;

function inchSlips(value: number): readonly number[] {
  const parts = [1, 2, 4, 8, 16, 32, FINEST_PER_INCH].find((per) => Number.isInteger(value * per));
  const steps = new Set(SIXTEENTHS.map((sixteenths) => sixteenths / 16));
  if (parts !== undefined) steps.add(1 / parts);
  const stepped = [...steps].flatMap((step) => [value - step, value + step]);
  return [...stepped, ...(parts === undefined ? [] : changedAbout(value, parts)), ...transposed(value)];
}

/** 2 3/8 for 3 2/8, that is with whole and numerator changed about. */
function changedAbout(value: number, per: number): readonly number[] {
  const whole = Math.floor(value);
  const numerator = Math.round((value - whole) * per);
  return whole > 0 && numerator > 0 && whole < per && whole !== numerator ? [numerator + whole / per] : [];
}

function millimetreSlips(value: number): readonly number[] {
  const stepped = [0.5, 1, 10, 100].flatMap((step) => [value - step, value + step]);
  return [...stepped, value * 10, value / 10, ...transposed(value)];
}

/** 125 for 152: two neighbouring digits of the whole changed about. */
function transposed(value: number): readonly number[] {
  const whole = Math.floor(value);
  const digits = String(whole);
  return Array.from({ length: digits.length - 1 }, (_, at) => {
    const changed = digits.slice(0, at) + (digits[at + 1] ?? '') + (digits[at] ?? '') + digits.slice(at + 2);
    return Number(changed) + (value - whole);
  });
}
