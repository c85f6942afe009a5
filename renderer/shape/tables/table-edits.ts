/** Bending tables between the header and text: what is shown, copied, saved and read in. */

import {
  assertNever,
  clipboardText,
  type Edit,
  formatAngleBare,
  formatLengthBare,
  formatTypedAngle,
  fromLra,
  fromXyz,
  type LengthStyle,
  type LengthUnit,
  lraCsv,
  MM_PER_INCH,
  type Piece,
  type Pose,
  type Primary,
  type Problem,
  poseOfFrame,
  type Result,
  readLraCsv,
  readXyzCsv,
  type SingleEdit,
  success,
  type TableNote,
  toLra,
  toXyz,
  unitOf,
  xyzCsv,
} from '../../../core/index.ts';

export type TableKind = 'lra' | 'xyz';

export interface ShownTable {
  readonly columns: readonly string[];
  /** Figures in the display unit; empty where there is none. */
  readonly rows: readonly (readonly string[])[];
  readonly notes: readonly string[];
  /** Comma-separated, in millimetres with all digits; reads back exactly. */
  readonly csv: string;
  /** Tab-separated in the display unit, for a spreadsheet; reads back to within 1e-6 of the unit. */
  readonly tsv: string;
}

export function shownTable(kind: TableKind, primary: Primary, style: LengthStyle): Result<ShownTable, Problem> {
  return kind === 'lra' ? shownLra(primary, style) : shownXyz(primary, style);
}

function shownLra(primary: Primary, style: LengthStyle): Result<ShownTable, Problem> {
  const made = toLra(primary);
  if (!made.ok) return made;
  const { table, notes } = made.value;
  const unit = unitOf(style);
  const length = (mm: number) => formatLengthBare(mm, style);
  const angle = (deg: number) => formatAngleBare(Math.round(deg * 100) / 100);
  return success({
    columns: [`length, ${unit}`, 'rotation', 'angle', `CLR, ${unit}`],
    rows: [
      ...table.rows.map((row) => [
        length(row.lengthMm),
        angle(row.rotationDeg),
        angle(row.angleDeg),
        length(row.clrMm),
      ]),
      [length(table.lastLengthMm), '', '', ''],
    ],
    notes: notes.map(noteWords),
    csv: lraCsv(table),
    tsv: clipboardText([
      [`length_${unit}`, 'rotation_deg', 'angle_deg', `clr_${unit}`],
      ...table.rows.map((row) => [
        inUnit(row.lengthMm, unit),
        formatTypedAngle(row.rotationDeg),
        formatTypedAngle(row.angleDeg),
        inUnit(row.clrMm, unit),
      ]),
      [inUnit(table.lastLengthMm, unit), '', '', ''],
    ]),
  });
}

function shownXyz(primary: Primary, style: LengthStyle): Result<ShownTable, Problem> {
  const made = toXyz(primary, primary.port);
  if (!made.ok) return made;
  const { table, notes } = made.value;
  const unit = unitOf(style);
  const length = (mm: number) => formatLengthBare(mm, style);
  return success({
    columns: [`forward, ${unit}`, `outboard, ${unit}`, `up, ${unit}`, `CLR, ${unit}`],
    rows: table.points.map(({ xMm, yMm, zMm, clrMm }) => [
      length(xMm),
      length(yMm),
      length(zMm),
      clrMm === null ? '' : length(clrMm),
    ]),
    notes: notes.map(noteWords),
    csv: xyzCsv(table),
    tsv: clipboardText([
      [`x_${unit}`, `y_${unit}`, `z_${unit}`, `clr_${unit}`],
      ...table.points.map(({ xMm, yMm, zMm, clrMm }) => [
        inUnit(xMm, unit),
        inUnit(yMm, unit),
        inUnit(zMm, unit),
        clrMm === null ? '' : inUnit(clrMm, unit),
      ]),
    ]),
  });
}

/** Six decimals, without those that say nothing. */
function inUnit(mm: number, unit: LengthUnit): string {
  return String(Number((unit === 'in' ? mm / MM_PER_INCH : mm).toFixed(6)) + 0);
}

export function noteWords(note: TableNote): string {
  switch (note.kind) {
    case 'pieCutAsBend':
      return `Piece ${note.pieceNumber} is pie-cut; a bending machine makes an arc of it, with the same ends.`;
    case 'bendSplit':
      return `Piece ${note.pieceNumber} turns ${note.angleDeg}°: its tangents cross far away or never, so it is listed in ${note.parts} equal bends.`;
    case 'pointOnStraight':
      return `Point ${note.point} lies on the line between its neighbours: there is no bend, and it is left out.`;
    default:
      return assertNever(note);
  }
}

interface ReadTube {
  readonly pieces: readonly Piece[];
  /** Null: a table that does not say where the tube starts. */
  readonly port: Pose | null;
  readonly notes: readonly string[];
}

/** The step that puts the tube of a table in place of a primary's pieces, and what is worth saying about it. */
export function tableEdit(
  kind: TableKind,
  text: string,
  { primary, unit, newId }: { readonly primary: Primary; readonly unit: LengthUnit; readonly newId: () => string },
): Result<{ readonly edit: Edit; readonly notes: readonly string[] }, Problem> {
  const read = kind === 'lra' ? readLra(text, newId) : readXyz(text, unit, newId);
  if (!read.ok) return read;
  const { pieces, port, notes } = read.value;
  const edits: SingleEdit[] = primary.pieces.map(({ id }) => ({
    kind: 'removePiece',
    primaryId: primary.id,
    pieceId: id,
  }));
  if (port !== null) edits.push({ kind: 'setPrimary', primaryId: primary.id, set: { port } });
  for (const [at, piece] of pieces.entries()) edits.push({ kind: 'addPiece', primaryId: primary.id, piece, at });
  return success({ edit: { kind: 'batch', label: `read ${kind.toUpperCase()} table`, edits }, notes });
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
  return success({ pieces, port: poseOfFrame(port, unit), notes: notes.map(noteWords) });
}
