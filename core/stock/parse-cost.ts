/** Reads what a piece costs, as people and spreadsheets write it: `12.50`, `$12.50`, `12,50 €`, `1.250,00 kr`. */

import { failure, type Result, success } from '../result.ts';
import { clipped } from '../units/read-quantity.ts';
import { COST_LIMIT } from './schema.ts';
import type { StockProblem } from './stock-problem.ts';

export interface ReadCost {
  readonly cost: number;
  /** The sign or letters of a currency that stood there and are left out, and whether a comma was read as a decimal point. */
  readonly sign: string | null;
  readonly hasDecimalComma: boolean;
}

/** A sign (any of Unicode's currency symbols) or up to three letters before or after a number with marks between its digits. */
const COST = /^(\p{Sc}|\p{L}{1,3}\.?)?\s*([0-9](?:[0-9.,'’ \u00a0\u202f]*[0-9])?)\s*(\p{Sc}|\p{L}{1,3}\.?)?$/u;
const GROUPED = /^[0-9]{1,3}(?:[.,' ][0-9]{3})+$/;

/**
 * The rule: of a point and a comma in one number the last is the decimal mark. A lone comma is one when one, two or four digits
 * follow; before three digits nobody can tell, so that is refused. A lone point is always one. Spaces and apostrophes part thousands.
 * Costs are in the shop's own money: a sign is read and left out.
 */
export function parseCost(text: string): Result<ReadCost, StockProblem> {
  const [, before, digits, after] = COST.exec(text.trim().slice(0, LOOKED_AT)) ?? [];
  if (digits === undefined || (before !== undefined && after !== undefined)) return refused(text, 'cost');
  const number = readMarks(digits.replace(/[’\u00a0\u202f]/g, (mark) => (mark === '’' ? "'" : ' ')));
  if (number === null) return refused(text, 'cost');
  if (number === 'unclear') return refused(text, 'costClear');
  const cost = Number(number.plain);
  if (cost > COST_LIMIT) return refused(text, 'cost');
  return success({ cost, sign: before ?? after ?? null, hasDecimalComma: number.hasDecimalComma });
}

/** Longer than any price; bounds the work on a hostile file. */
const LOOKED_AT = 40;

interface Marked {
  /** Digits with at most one point. */
  readonly plain: string;
  readonly hasDecimalComma: boolean;
}

function readMarks(digits: string): Marked | 'unclear' | null {
  if (/^[0-9]+$/.test(digits)) return { plain: digits, hasDecimalComma: false };
  const mark = decimalMark(digits);
  if (mark === 'unclear') return 'unclear';
  const at = mark === null ? digits.length : digits.lastIndexOf(mark);
  const [whole, places] = [digits.slice(0, at), digits.slice(at + 1)];
  if (!/^[0-9]*$/.test(places) || !(/^[0-9]+$/.test(whole) || isGrouped(whole, mark))) return null;
  return {
    plain: `${whole.replace(/[^0-9]/g, '')}${places === '' ? '' : `.${places}`}`,
    hasDecimalComma: mark === ',',
  };
}

function decimalMark(digits: string): ',' | '.' | 'unclear' | null {
  const commas = digits.split(',').length - 1;
  const points = digits.split('.').length - 1;
  if (commas > 0 && points > 0) return digits.lastIndexOf(',') > digits.lastIndexOf('.') ? ',' : '.';
  if (commas > 1 || points > 1) return null;
  if (points === 1) return '.';
  if (commas === 0) return null;
  return /,[0-9]{3}$/.test(digits) ? 'unclear' : ',';
}

/** Thousands parted by one mark throughout, which is not the decimal one. */
function isGrouped(whole: string, mark: string | null): boolean {
  const marks = new Set(whole.replace(/[0-9]/g, ''));
  return GROUPED.test(whole) && marks.size === 1 && (mark === null || !marks.has(mark));
}

function refused(text: string, expected: 'cost' | 'costClear'): Result<never, StockProblem> {
  return failure({ kind: 'stockCellRefused', column: 'cost', found: clipped(text.trim()), expected });
}
