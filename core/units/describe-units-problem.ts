/** Says in one plain sentence why a typed length or angle could not be read, and what would do. */

import { assertNever } from '../result.ts';
import { TYPED_LIMIT } from './read-quantity.ts';
import type { UnitsProblem } from './units-problem.ts';

/** What was read, why not, what would do: `"3 5/" has no denominator after the slash: type it as 3 5/8.` */
export function describeUnitsProblem(problem: UnitsProblem): string {
  const { text, part } = problem;
  const isLength = problem.kind === 'unreadableLength';
  const example = isLength ? '2 3/4, 2.75" or 70 mm' : '90, 22.5 or 22 1/2';
  const read = `"${text}"`;
  switch (problem.reason) {
    case 'empty':
      return `Nothing was typed: type ${isLength ? 'a length' : 'an angle'} such as ${example}.`;
    case 'tooLong':
      return `"${text}…" is longer than ${TYPED_LIMIT} characters: type one ${isLength ? 'length' : 'angle'} such as ${example}.`;
    case 'notANumber':
      return `${read} has no number where one should start, at "${part}": type it like ${example}.`;
    case 'noDenominator':
      return `${read} has no denominator after the slash: type it as ${mendedFraction(text, part)}.`;
    case 'noNumerator':
      return `${read} has no numerator before the slash: type it as ${text.replace(part, withNumerator(part))}.`;
    case 'zeroDenominator':
      return `${read} divides by zero in "${part}": type a denominator such as 8, 16 or 32.`;
    case 'improperFraction':
      return `${read} has a fraction of one or more in "${part}": ${betterFraction(text, part)}.`;
    case 'decimalComma':
      return `${read} has a comma in "${part}": use a point for decimals, as in 1.5, and nothing between thousands.`;
    case 'unknownUnit':
      return isLength
        ? `${read} has the unit "${part}", which is not known here: use in, ", ft, ' or mm.`
        : `${read} has the unit "${part}", which is not known here: type degrees, as in ${example}.`;
    case 'leftover':
      return `${read} has "${part}" left over or out of place: type one ${isLength ? 'length' : 'angle'}, like ${example}.`;
    case 'fractionOfMillimetre':
      return `${read} is a fraction in millimetres: type the millimetres as a decimal, or add " if inches are meant.`;
    case 'inchesPastAFoot':
      return `${read} has a foot or more in its inches, "${part}": keep them below 12, or type all of it in inches.`;
    case 'negative':
      return `${read} is below zero: type a length of zero or more.`;
    case 'outOfRange':
      return `${read} is more than a million: type it like ${example}.`;
    default:
      return assertNever(problem.reason);
  }
}

/** What may follow a fraction; anything else after its slash is the slip itself, and goes. */
const UNIT_AFTER = /^\s*(?:in|inch|inches|mm|ft|"|″|'|′|°|deg|degrees?)(?![a-z])/i;

/** The text with a whole fraction in place of the part that ends in a slash: `4 1/z` becomes `4 1/2`, `3 5/ in` `3 5/8 in`. */
function mendedFraction(text: string, part: string): string {
  const at = text.indexOf(part);
  const after = text.slice(at + part.length);
  return `${text.slice(0, at)}${withDenominator(part)}${UNIT_AFTER.test(after) ? after : ''}`;
}

/** `5/` becomes `5/8`: the smallest halving of an inch that the numerator fits. */
function withDenominator(part: string): string {
  const digits = /^[0-9]{1,2}/.exec(part)?.[0];
  const denominator = [2, 4, 8, 16, 32, 64].find((per) => per > Number(digits)) ?? 64;
  return `${digits === undefined || Number(digits) >= 64 ? '5' : digits}/${denominator}`;
}

/** `/8` becomes `1/8`. */
function withNumerator(part: string): string {
  const digits = /[0-9]{1,2}$/.exec(part)?.[0];
  return `1/${digits === undefined || Number(digits) < 2 ? 8 : digits}`;
}

/** What `23/4` may have been meant as: `5 3/4` by value, `2 3/4` if a space was left out. */
function betterFraction(text: string, part: string): string {
  const match = /^([0-9]+)\s*[/⁄∕]\s*([0-9]+)$/.exec(part);
  const over = match?.[1] ?? '';
  const denominator = BigInt(match?.[2] ?? '0');
  if (!text.startsWith(part) || denominator === 0n) return 'type a whole number and a fraction below one';
  const [whole, rest] = [BigInt(over) / denominator, BigInt(over) % denominator];
  const byValue = rest === 0n ? `${whole}` : `${whole} ${rest}/${denominator}`;
  const lastDigit = over.slice(-1);
  const couldLackSpace = over.length > 1 && lastDigit !== '0' && BigInt(lastDigit) < denominator;
  return couldLackSpace
    ? `type ${byValue}, or ${over.slice(0, -1)} ${lastDigit}/${denominator} if a space was left out`
    : `type ${byValue}`;
}
