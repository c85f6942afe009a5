/** Reads one number as the trade writes it (2 3/4, 2-3/4, 3/4, 2.75, .5, 2½) from a line of tokens. */

import { failure, type Result, success } from '../result.ts';
import { isAtLeastWhole, type Rational, rationalFromDecimal, sumOf } from './rational.ts';
import { type Token, type TokenKind, tokensOf, VULGAR_FRACTIONS } from './tokens.ts';
import type { UnitsProblem } from './units-problem.ts';

/** What is wrong and with which part of the text. */
export type Fault = Pick<UnitsProblem, 'reason' | 'part'>;

export interface Quantity {
  readonly value: Rational;
  /** `decimal` has a point, `fraction` a slash. */
  readonly form: 'whole' | 'decimal' | 'fraction';
}

/** A line being read from left to right; the readers move `at` past what they took. */
export interface Reading {
  readonly text: string;
  readonly tokens: readonly Token[];
  at: number;
}

/** Longest text that is looked into; nobody types more for one length. */
export const TYPED_LIMIT = 64;

/** A comma with digits on both sides, alone or in a longer number. */
const COMMA_NUMBER = /[0-9.]*[0-9],[0-9][0-9.,]*/;

/** Refuses what no number can be read from at first sight, and cuts the rest into tokens. */
export function startReading(typed: string): Result<Reading, Fault> {
  const text = typed.trim();
  if (text.length === 0) return failure({ reason: 'empty', part: '' });
  if (text.length > TYPED_LIMIT) return failure({ reason: 'tooLong', part: clipped(text) });
  const comma = COMMA_NUMBER.exec(text);
  if (comma !== null) return failure({ reason: 'decimalComma', part: comma[0] });
  return success({ text, tokens: tokensOf(text), at: 0 });
}

/** The first characters of a text, for a problem; never half a character. */
export function clipped(text: string): string {
  return text.slice(0, TYPED_LIMIT).toWellFormed();
}

/** Takes the next token if it is of this kind. */
export function take(reading: Reading, kind: TokenKind): Token | null {
  const token = reading.tokens[reading.at];
  if (token?.kind !== kind) return null;
  reading.at += 1;
  return token;
}

/** Takes a leading plus or minus; true for minus. */
export function takeSign(reading: Reading): boolean {
  if (take(reading, 'plus') !== null) return false;
  return take(reading, 'dash') !== null;
}

/** A dash that holds two numbers together; one with a space beside it could be meant as a minus and is left alone. */
export function takeTightDash(reading: Reading): void {
  const dash = reading.tokens[reading.at];
  const next = reading.tokens[reading.at + 1];
  if (dash?.kind === 'dash' && !dash.spaced && next !== undefined && !next.spaced) reading.at += 1;
}

/** The text from the next token on. */
export function restOf(reading: Reading): string {
  const token = reading.tokens[reading.at];
  return token === undefined ? '' : reading.text.slice(token.start);
}

export function leftover(reading: Reading): { readonly ok: false; readonly problems: readonly Fault[] } {
  return failure({ reason: 'leftover', part: restOf(reading) });
}

/**
 * Reads a whole number, a decimal, a fraction or a whole and a fraction, without sign or unit.
 *
 * A fraction of one or more (23/4) is refused: at the bench it is a space left out far more often than it is meant.
 * White space about the slash must be on both sides or on none, or a number is missing there.
 */
export function readQuantity(reading: Reading): Result<Quantity, Fault> {
  if (startsFraction(reading)) return readFraction(reading);
  const first = take(reading, 'number');
  if (first === null) {
    return reading.tokens[reading.at]?.kind === 'slash'
      ? noNumerator(reading)
      : failure({ reason: 'notANumber', part: restOf(reading) || reading.text });
  }
  const value = rationalFromDecimal(first.text);
  if (first.text.includes('.')) return success({ value, form: 'decimal' });
  const afterWhole = reading.at;
  takeTightDash(reading);
  if (startsFraction(reading)) {
    const fraction = readFraction(reading);
    return fraction.ok ? success({ value: sumOf(value, fraction.value.value), form: 'fraction' }) : fraction;
  }
  if (reading.tokens[reading.at]?.kind === 'slash') return noNumerator(reading);
  reading.at = afterWhole;
  return success({ value, form: 'whole' });
}

function startsFraction({ tokens, at }: Reading): boolean {
  const [first, slash, last] = [tokens[at], tokens[at + 1], tokens[at + 2]];
  if (first?.kind === 'vulgar') return true;
  if (first?.kind !== 'number' || slash?.kind !== 'slash') return false;
  // In "3 /8" the slash belongs to the 8: the 3 is a whole number and a numerator is missing.
  return !(slash.spaced && last?.kind === 'number' && !last.spaced);
}

function readFraction(reading: Reading): Result<Quantity, Fault> {
  const vulgar = take(reading, 'vulgar');
  if (vulgar !== null) {
    const [numerator, denominator] = VULGAR_FRACTIONS.get(vulgar.text) ?? [0n, 1n];
    return success({ value: { numerator, denominator }, form: 'fraction' });
  }
  const [over, slash, under] = reading.tokens.slice(reading.at, reading.at + 3);
  if (over === undefined || slash === undefined) return leftover(reading);
  if (under?.kind !== 'number' || under.spaced !== slash.spaced) {
    return failure({ reason: 'noDenominator', part: reading.text.slice(over.start, slash.end) });
  }
  const part = reading.text.slice(over.start, under.end);
  if (part.includes('.')) return failure({ reason: 'leftover', part });
  reading.at += 3;
  const value = { numerator: BigInt(over.text), denominator: BigInt(under.text) };
  if (value.denominator === 0n) return failure({ reason: 'zeroDenominator', part });
  if (isAtLeastWhole(value, 1n)) return failure({ reason: 'improperFraction', part });
  return success({ value, form: 'fraction' });
}

function noNumerator(reading: Reading): { readonly ok: false; readonly problems: readonly Fault[] } {
  const slash = reading.tokens[reading.at];
  const next = reading.tokens[reading.at + 1];
  const end = next?.kind === 'number' ? next.end : slash?.end;
  return failure({ reason: 'noNumerator', part: reading.text.slice(slash?.start, end) });
}
