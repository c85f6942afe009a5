/** Exact fractions of whole numbers, so that what was typed is rounded once, to the nearest double, and never before. */

/** `numerator / denominator`, numerator zero or more, denominator above zero; not necessarily reduced. */
export interface Rational {
  readonly numerator: bigint;
  readonly denominator: bigint;
}

/**
 * A decimal number such as `2.75`, `.5` or `2.`, exactly.
 * @param text digits with at most one point and at least one digit
 */
export function rationalFromDecimal(text: string): Rational {
  const [whole = '', places = ''] = text.split('.');
  return { numerator: BigInt(whole + places), denominator: 10n ** BigInt(places.length) };
}

export function sumOf(a: Rational, b: Rational): Rational {
  return {
    numerator: a.numerator * b.denominator + b.numerator * a.denominator,
    denominator: a.denominator * b.denominator,
  };
}

export function timesWhole(a: Rational, factor: bigint): Rational {
  return { numerator: a.numerator * factor, denominator: a.denominator };
}

export function isAtLeastWhole(a: Rational, whole: bigint): boolean {
  return a.numerator >= whole * a.denominator;
}

/**
 * The double nearest to the fraction, ties to even, as if `Number()` had been given all its digits.
 * Both parts are below 2^900, which 64 typed characters cannot reach.
 */
export function numberOf({ numerator, denominator }: Rational): number {
  if (numerator === 0n) return 0;
  // With 66 bits or more in the quotient, its lowest bit can stand for whatever the division left over.
  const shift = Math.max(0, 66 + bitLength(denominator) - bitLength(numerator));
  const scaled = numerator << BigInt(shift);
  const quotient = scaled / denominator;
  const withRest = quotient * denominator === scaled ? quotient : quotient | 1n;
  return Number(withRest) / 2 ** shift;
}

function bitLength(value: bigint): number {
  return value.toString(2).length;
}
