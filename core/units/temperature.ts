/** Temperatures in the scale that they were typed in. */

import { assertNever } from '../result.ts';

/** A temperature exactly as it was typed. */
export interface Temperature {
  readonly value: number;
  readonly unit: 'C' | 'F' | 'K';
}

/** Kelvin; zero or less for a temperature that cannot be. */
export function kelvinOf({ value, unit }: Temperature): number {
  switch (unit) {
    case 'K':
      return value;
    case 'C':
      return value + 273.15;
    case 'F':
      return ((value - 32) * 5) / 9 + 273.15;
    default:
      return assertNever(unit);
  }
}
