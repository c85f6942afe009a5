/** Volumes as they are read off a measuring jug. */

import type { HeaderProblem } from '../header/header-problem.ts';
import type { Volume } from '../header/measured.ts';
import { quoted } from '../header/schema-problems.ts';
import { failure, type Result, success } from '../result.ts';

const VOLUME = /^(\d{1,7}(?:\.\d{1,6})?)\s*(.*)$/;

const UNITS: ReadonlyMap<string, Volume['unit']> = new Map([
  ['ml', 'ml'],
  ['cc', 'ml'],
  ['cm3', 'ml'],
  ['in3', 'in3'],
  ['in\u00b3', 'in3'],
  ['cu in', 'in3'],
]);

/** A volume such as `1250`, `1250 ml` or `76 in3`; without a unit in `unit`. */
export function parseVolume(text: string, unit: Volume['unit']): Result<Volume, HeaderProblem> {
  const [, number = '', word = ''] = VOLUME.exec(text.trim()) ?? [];
  const read = word === '' ? unit : UNITS.get(word.toLowerCase());
  if (number !== '' && read !== undefined) return success({ value: Number(number), unit: read });
  return failure({
    kind: 'invalidValue',
    path: ['primary', 'volume'],
    expected: 'a volume such as 1250 ml or 76 in3',
    found: text.trim() === '' ? 'nothing' : quoted(text.trim()),
  });
}

/** As it was typed; a bare number in `bareUnit`. */
export function volumeText({ value, unit }: Volume, bareUnit: Volume['unit']): string {
  return unit === bareUnit ? String(value) : `${value} ${unit}`;
}
