/** Rows read back are checked twice: against their checksum, and against the shape that the program expects. */

import * as z from 'zod';
import { DamagedRow } from '../file/faults.ts';
import { type Covered, isIntact, type Table } from './checksums.ts';

/** A whole row with its checksum. Throws DamagedRow when it is not what was written. */
export function intactRow<Name extends Table, Row extends Covered<Name> & { readonly checksum: number }>(
  table: Name,
  row: Row,
): Row {
  if (!isIntact(table, row)) throw new DamagedRow(`a row of ${table} does not match its checksum`);
  return row;
}

/** JSON text of a cell, as what `schema` describes. Throws DamagedRow when it is anything else. */
export function cellOf<Shape extends z.ZodType>(schema: Shape, json: string, where: string): z.output<Shape> {
  return shaped(schema, jsonOf(json, where), where);
}

/** Throws DamagedRow when the cell holds no JSON. */
export function jsonOf(json: string, where: string): unknown {
  try {
    return JSON.parse(json);
  } catch (cause) {
    throw new DamagedRow(`${where} does not hold JSON`, { cause });
  }
}

/** Throws DamagedRow when the value is not what `schema` describes. */
export function shaped<Shape extends z.ZodType>(schema: Shape, value: unknown, where: string): z.output<Shape> {
  const parsed = schema.safeParse(value);
  if (!parsed.success) throw new DamagedRow(`${where}: ${z.prettifyError(parsed.error)}`);
  return parsed.data;
}
