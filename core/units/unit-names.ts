/** The names under which people write units of length, in a cell or in the name over a column. */

import type { LengthUnit } from './length.ts';

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
export function unitNamed(word: string): LengthUnit | 'ft' | null {
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
