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

/** Millimetres as a length in `unit`: for what is worked out, not typed. */
export function lengthIn(mm: number, unit: LengthUnit): Length {
  return { value: unit === 'in' ? mm / MM_PER_INCH : mm, unit };
}

export function inches(value: number): Length {
  return { value, unit: 'in' };
}

export function millimetres(value: number): Length {
  return { value, unit: 'mm' };
}
