/** The edit that puts the tube of a bending table in place of a primary's pieces. */

import type { Piece, Pose, Primary } from '../header/header.ts';
import { poseOfFrame } from '../path/frame.ts';
import type { TableNote } from '../path/tables/bending-table.ts';
import { fromXyz } from '../path/tables/from-xyz.ts';
import { fromLra } from '../path/tables/lra.ts';
import { readLraCsv, readXyzCsv } from '../path/tables/table-csv.ts';
import type { Problem } from '../problem.ts';
import { type Result, success } from '../result.ts';
import type { LengthUnit } from '../units/length.ts';
import { type BatchEdit, batchOf, type SingleEdit } from './edit.ts';
import { replaceAllPieces } from './piece-edits.ts';

/** Length, rotation and angle of each bend, or the points where the tangents cross. */
export type TableKind = 'lra' | 'xyz';

interface ReadTube {
  readonly pieces: readonly Piece[];
  /** Null: a table that does not say where the tube starts. */
  readonly port: Pose | null;
  readonly notes: readonly TableNote[];
}

/** The step, and what is worth saying about the table. `unit` is the one that a port read from it is kept in. */
export function tableEdit(
  kind: TableKind,
  text: string,
  { primary, unit, newId }: { readonly primary: Primary; readonly unit: LengthUnit; readonly newId: () => string },
): Result<{ readonly edit: BatchEdit; readonly notes: readonly TableNote[] }, Problem> {
  const read = kind === 'lra' ? readLra(text, newId) : readXyz(text, unit, newId);
  if (!read.ok) return read;
  const { pieces, port, notes } = read.value;
  const setPort: readonly SingleEdit[] =
    port === null ? [] : [{ kind: 'setPrimary', primaryId: primary.id, set: { port } }];
  const edit = batchOf(`read ${kind.toUpperCase()} table`, replaceAllPieces(primary, pieces, setPort));
  return success({ edit, notes });
}

function readLra(text: string, newId: () => string): Result<ReadTube, Problem> {
  const table = readLraCsv(text);
  if (!table.ok) return table;
  const pieces = fromLra(table.value, newId);
  return pieces.ok ? success({ pieces: pieces.value, port: null, notes: [] }) : pieces;
}

function readXyz(text: string, unit: LengthUnit, newId: () => string): Result<ReadTube, Problem> {
  const table = readXyzCsv(text);
  if (!table.ok) return table;
  const tube = fromXyz(table.value, newId);
  if (!tube.ok) return tube;
  const { pieces, port, notes } = tube.value;
  return success({ pieces, port: poseOfFrame(port, unit), notes });
}
