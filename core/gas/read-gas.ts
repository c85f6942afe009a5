/** Figures of the gas and the engine as they are typed. */

import type { Temperature } from '../header/engine.ts';
import type { HeaderProblem } from '../header/header-problem.ts';
import { quoted } from '../header/schema-problems.ts';
import { failure, type Result, success } from '../result.ts';

const TEMPERATURE = /^([+\u2212-]?\d+(?:\.\d+)?)\s*\u00b0?\s*([CFK])?$/i;

/** A temperature such as `650`, `650 C` or `1200 °F`; without a letter in `unit`. */
export function parseTemperature(text: string, unit: Temperature['unit']): Result<Temperature, HeaderProblem> {
  const [, number = '', letter = unit] = TEMPERATURE.exec(text.trim()) ?? [];
  if (number !== '') {
    return success({ value: Number(number.replace('\u2212', '-')), unit: letter.toUpperCase() as Temperature['unit'] });
  }
  return failure({
    kind: 'invalidValue',
    path: ['engine', 'gasTemperature'],
    expected: 'a temperature such as 650 C or 1200 F',
    found: text.trim() === '' ? 'nothing' : quoted(text.trim()),
  });
}

/** A plain number; `field` is where it goes, for the sentence that says why not. */
export function parsePlainNumber(text: string, field: string): Result<number, HeaderProblem> {
  const trimmed = text.trim();
  if (/^\d{1,9}(?:\.\d{1,9})?$/.test(trimmed)) return success(Number(trimmed));
  const found = trimmed === '' ? 'nothing' : quoted(trimmed);
  return failure({ kind: 'invalidValue', path: ['engine', field], expected: 'a plain number', found });
}
