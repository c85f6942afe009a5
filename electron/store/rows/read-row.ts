/** Rows read back are checked twice: against their checksum, and against the shape that the program expects. */

import * as z from 'zod';
import { DamagedRow } from '../file/faults.ts';
import { isIntact } from './checksums.ts';
import type { Row, StoredRow, Table } from './columns.ts';

/** Throws DamagedRow when the row is not what was written. */
export function intactRow<Name extends Table>(table: Name, row: StoredRow<Name>): Row<Name> {
  if (!isIntact(table, row)) throw new DamagedRow(`a row of ${table} does not match its checksum`);
  return row;
}

/** Where a cell stands, for the words of a fault; with the header that it concerns, if it is only one. */
export type Where = string | { readonly what: string; readonly headerId: string };

/** JSON text of a cell, as what `schema` describes. Throws DamagedRow when it is anything else. */
export function cellOf<Shape extends z.ZodType>(schema: Shape, json: string, where: Where): z.output<Shape> {
  return shaped(schema, jsonOf(json, where), where);
}

/** Throws DamagedRow when the cell holds no JSON. */
export function jsonOf(json: string, where: Where): unknown {
  try {
    return JSON.parse(json);
  } catch (cause) {
    throw damaged('it does not hold JSON', where, cause);
  }
}

/** Throws DamagedRow when the value is not what `schema` describes. */
export function shaped<Shape extends z.ZodType>(schema: Shape, value: unknown, where: Where): z.output<Shape> {
  const parsed = schema.safeParse(value);
  if (!parsed.success) throw damaged(z.prettifyError(parsed.error), where);
  return parsed.data;
}

function damaged(how: string, where: Where, cause?: unknown): DamagedRow {
  return typeof where === 'string'
    ? new DamagedRow(`${where}: ${how}`, { cause })
    : new DamagedRow(`${where.what}: ${how}`, { headerId: where.headerId, cause });
}
