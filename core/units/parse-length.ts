/** Reads lengths as people type them: inch fractions, decimal inches, feet and inches, millimetres; and units over columns. */

import { failure, type Result, success } from '../result.ts';
import type { Length, LengthUnit } from './length.ts';
import { isAtLeastWhole, numberOf, sumOf, timesWhole } from './rational.ts';
import {
  clipped,
  type Fault,
  leftover,
  type Quantity,
  type Reading,
  readQuantity,
  restOf,
  startReading,
  take,
  takeSign,
  takeTightDash,
} from './read-quantity.ts';
import type { UnitsProblem } from './units-problem.ts';

/** No length above this is read, in the unit typed; the document takes none either. */
export const TYPED_LENGTH_LIMIT = 1e6;

const INCHES_PER_FOOT = 12n;

/**
 * A length of zero or more.
 *
 * Reads `2 3/4`, `2-3/4`, `3/4`, `2.75`, `.5`, `2½`, each with `in`, `"` or no unit; `70mm`, `70.5 mm`; `1'`, `1' 2 1/2"`,
 * `1 ft 2 in`; units may be written out or with a full stop (`2 inches`, `2 in.`). Unicode primes, curled quotes, fraction slash, minus and spaces are taken too. Feet become inches.
 * Refuses with a reason: decimal commas, fractions of a millimetre, fractions of one or more, 12 or more inches after
 * feet, other units, anything left over, more than 64 characters, more than a million.
 *
 * @param unit the unit of a number typed without one
 * @returns the length in the unit typed; its value is the double nearest to what was typed
 */
export function parseLength(text: string, unit: LengthUnit): Result<Length, UnitsProblem> {
  const parsed = parseSignedLength(text, unit);
  if (parsed.ok && parsed.value.value < 0) return refused(text, { reason: 'negative', part: clipped(text.trim()) });
  return parsed;
}

/** A length of either sign, for coordinates; otherwise as `parseLength`. The sign comes first. */
export function parseSignedLength(text: string, unit: LengthUnit): Result<Length, UnitsProblem> {
  const reading = startReading(text);
  if (!reading.ok) return refused(text, reading.problems[0]);
  const isNegative = takeSign(reading.value);
  const length = readLength(reading.value, unit);
  if (!length.ok) return refused(text, length.problems[0]);
  const { value } = length.value;
  if (value > TYPED_LENGTH_LIMIT) return refused(text, { reason: 'outOfRange', part: reading.value.text });
  // Zero has no sign in this program.
  return success(isNegative && value !== 0 ? { ...length.value, value: -value } : length.value);
}

function refused(text: string, fault: Fault | undefined): Result<never, UnitsProblem> {
  const { reason, part } = fault ?? { reason: 'notANumber', part: '' };
  return failure({ kind: 'unreadableLength', text: clipped(text.trim()), reason, part });
}

function readLength(reading: Reading, unit: LengthUnit): Result<Length, Fault> {
  const quantity = readQuantity(reading);
  if (!quantity.ok) return quantity;
  const typedUnit = takeUnit(reading);
  if (!typedUnit.ok) return typedUnit;
  if (typedUnit.value === 'ft') return readInchesAfterFeet(reading, quantity.value);
  if (reading.at < reading.tokens.length) return leftover(reading);
  const lengthUnit = typedUnit.value ?? unit;
  if (lengthUnit === 'mm' && quantity.value.form === 'fraction') {
    return failure({ reason: 'fractionOfMillimetre', part: reading.text });
  }
  return success({ value: numberOf(quantity.value.value), unit: lengthUnit });
}

/** The unit that follows a number; null if none does. */
function takeUnit(reading: Reading): Result<LengthUnit | 'ft' | null, Fault> {
  if (take(reading, 'inch') !== null) return success('in');
  if (take(reading, 'foot') !== null) return success('ft');
  const word = take(reading, 'word');
  if (word === null) return success(null);
  const unit = unitNamed(word.text);
  if (unit === null) return failure({ reason: 'unknownUnit', part: word.text });
  takeFullStop(reading);
  return success(unit);
}

/** `in.` and `mm.` are common; the full stop belongs to the word before it. */
function takeFullStop(reading: Reading): void {
  const next = reading.tokens[reading.at];
  if (next?.kind === 'other' && next.text === '.' && !next.spaced) reading.at += 1;
}

function readInchesAfterFeet(reading: Reading, feet: Quantity): Result<Length, Fault> {
  const feetAsInches = timesWhole(feet.value, INCHES_PER_FOOT);
  if (reading.at === reading.tokens.length) return success({ value: numberOf(feetAsInches), unit: 'in' });
  // 1 1/2 ft 3 in is more likely a slip than a length.
  if (feet.form !== 'whole') return leftover(reading);
  const rest = restOf(reading);
  takeTightDash(reading);
  const inches = readQuantity(reading);
  if (!inches.ok)
    return inches.problems[0]?.reason === 'notANumber' ? failure({ reason: 'leftover', part: rest }) : inches;
  const unit = takeUnit(reading);
  if (!unit.ok) return unit;
  if ((unit.value ?? 'in') !== 'in') return failure({ reason: 'leftover', part: rest });
  if (reading.at < reading.tokens.length) return leftover(reading);
  if (isAtLeastWhole(inches.value.value, INCHES_PER_FOOT)) return failure({ reason: 'inchesPastAFoot', part: rest });
  return success({ value: numberOf(sumOf(feetAsInches, inches.value.value)), unit: 'in' });
}

const UNIT_NAMES: ReadonlyMap<string, LengthUnit | 'ft'> = new Map([
  ['in', 'in'],
  ['inch', 'in'],
  ['inches', 'in'],
  ['ft', 'ft'],
  ['foot', 'ft'],
  ['feet', 'ft'],
  ['mm', 'mm'],
  ['millimeter', 'mm'],
  ['millimeters', 'mm'],
  ['millimetre', 'mm'],
  ['millimetres', 'mm'],
]);

/** The unit of this name, whatever its case; null for any other word. */
function unitNamed(word: string): LengthUnit | 'ft' | null {
  return UNIT_NAMES.get(word.toLowerCase()) ?? null;
}

/** What stands over a column, with the unit at its end taken off. */
export interface ColumnName {
  /** Its words in small letters, joined by `_`. */
  readonly name: string;
  /** The unit of bare numbers below it; null when it names none. */
  readonly unit: LengthUnit | null;
}

const LAST_WORD = /^(.*?)[\s_\-([{,]*(\p{L}+|["″“”]|''|′′|’’)[\s.)\]}]*$/su;

/**
 * Reads a column's name whose end may be the unit of its bare numbers: `OD (mm)`, `wall_in`, `CLR inches`, `Length "`, `od mm.`.
 * A name that is nothing but a unit is a name. Linear in the text.
 */
export function readColumnName(text: string): ColumnName {
  const [, stem = '', last = ''] = LAST_WORD.exec(text.trim().slice(0, LOOKED_AT)) ?? [];
  const unit = /^\p{L}/u.test(last) ? unitNamed(last) : last === '' ? null : 'in';
  const isUnit = (unit === 'in' || unit === 'mm') && wordsOf(stem) !== '';
  return isUnit ? { name: wordsOf(stem), unit } : { name: wordsOf(text), unit: null };
}

/** More than any column's name has; bounds the work on a hostile file. */
const LOOKED_AT = 64;

function wordsOf(text: string): string {
  return (text.toLowerCase().match(/\p{L}+/gu) ?? []).join('_');
}
