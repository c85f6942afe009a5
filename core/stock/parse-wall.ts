/** Reads a wall as a length or as a tube gauge: `0.065`, `1.65 mm`, `16 ga`. */

import { failure, type Result, success } from '../result.ts';
import type { Length, LengthUnit } from '../units/length.ts';
import { parseLength } from '../units/parse-length.ts';
import { clipped } from '../units/read-quantity.ts';
import type { UnitsProblem } from '../units/units-problem.ts';
import type { StockProblem } from './stock-problem.ts';
import { bwgWall } from './tube-sizes.ts';

export interface ReadWall {
  readonly wall: Length;
  /** The gauge that it was written as; null: a length. */
  readonly gauge: number | null;
}

const GAUGE = /^([0-9]{1,2})\s*(?:ga|gauge|gage|bwg)\.?$/i;

/** Gauges are those of tube (Birmingham wire gauge), whole numbers 10 to 22; sheet gauges mean other walls. */
export function parseWall(text: string, unit: LengthUnit): Result<ReadWall, UnitsProblem | StockProblem> {
  const [, number] = GAUGE.exec(text.trim().slice(0, LOOKED_AT)) ?? [];
  if (number === undefined) {
    const length = parseLength(text, unit);
    return length.ok ? success({ wall: length.value, gauge: null }) : length;
  }
  const wall = bwgWall(Number(number));
  if (wall !== null) return success({ wall, gauge: Number(number) });
  return failure({ kind: 'stockCellRefused', column: 'wall', found: clipped(text.trim()), expected: 'gauge' });
}

const LOOKED_AT = 40;
