/** Lengths as typed, and the one conversion between them and millimetres. */

export type LengthUnit = 'in' | 'mm';

/** A length exactly as a person entered it; 2 3/4 in is `{ value: 2.75, unit: 'in' }`. */
export interface Length {
  readonly value: number;
  readonly unit: LengthUnit;
}

/** Millimetres in one inch; exact by definition (international inch, 1959; NIST SP 811 B.6). */
export const MM_PER_INCH = 25.4;

/**
 * The length in millimetres. Not finite in, not finite out.
 * Inches go by 127/5 instead of 25.4, which no double holds: fractions of an inch then come out as the double nearest to
 * their millimetres (1 1/2 in is 38.1 mm, and not 38.099999999999994).
 */
export function mmOf(length: Length): number {
  return length.unit === 'in' ? (length.value * 127) / 5 : length.value;
}

/** Millimetres as a length in `unit`: for what is worked out, not typed; see `withoutNoise`. */
export function lengthIn(mm: number, unit: LengthUnit): Length {
  return { value: withoutNoise(unit === 'in' ? mm / MM_PER_INCH : mm), unit };
}

/** Decimals that a worked-out length keeps. Doubles of up to a few feet or metres are off by 1e-15 to 1e-12 after some sums. */
const DECIMALS = 11;

/**
 * A worked-out value in inches or mm without the digits that are rounding alone, so that a field shows 9.1875 and not
 * 9.187500000000002. Off by 5e-12 of the unit at most; what is not finite, or too large to have such digits, stays as it is;
 * nothing is ever -0.
 */
export function withoutNoise(value: number): number {
  return Math.abs(value) < 1e6 ? Number(value.toFixed(DECIMALS)) + 0 : value;
}

export function inches(value: number): Length {
  return { value, unit: 'in' };
}

export function millimetres(value: number): Length {
  return { value, unit: 'mm' };
}
