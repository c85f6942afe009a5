/** Bending tables as text: what is shown, copied and saved, and what is worth saying about them. */

import {
  assertNever,
  clipboardText,
  formatAngleBare,
  formatLengthBare,
  formatTypedAngle,
  type LengthStyle,
  type LengthUnit,
  lengthIn,
  lraCsv,
  type Primary,
  type Problem,
  type Result,
  success,
  type TableKind,
  type TableNote,
  toLra,
  toXyz,
  unitOf,
  xyzCsv,
} from '../../../core/index.ts';

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
  const angle = (deg: number) => formatAngleBare(deg);
  return success({
    columns: [`length (${unit})`, 'rotation', 'angle', `CLR (${unit})`],
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
    columns: [`forward (${unit})`, `outboard (${unit})`, `up (${unit})`, `CLR (${unit})`],
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
  return String(Number(lengthIn(mm, unit).value.toFixed(6)) + 0);
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
