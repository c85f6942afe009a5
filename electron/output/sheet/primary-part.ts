/** One primary on the build sheet: how it stands, and its pieces in order. */

import {
  formatLength,
  formatLengthBare,
  formatTypedAngle,
  type Length,
  type LengthStyle,
  METHOD_WORDS,
  pieceName,
  readingSentence,
  readingVerdict,
  rowWords,
  type SheetPrimary,
  type SheetRow,
  typedText,
  unitOf,
} from '../../../core/index.ts';
import type { PageFlow } from '../pages/flow/page-flow.ts';
import { drawTable, type Table, type TableRow, tableStartMm } from '../pages/flow/table.ts';
import { LINE_RATIO } from '../pages/flow/text-lines.ts';
import { titleOf } from './chart.ts';
import { tubeWords } from './summary.ts';

/** Said once, before the first table. */
export const PIECES_LEGEND =
  'Outside arc: along the outside of the bend, as a tape lies. Clock: turn of the bend from the one before it, clockwise as seen from the port. Mark: round the outside from the port-up line to the inside of the bend, clockwise as seen from the port. Total: along the centreline from the port.';

const HEADING_MM = 4.2;
const NONE = '\u2013';

export function drawPrimary(flow: PageFlow, primary: SheetPrimary, style: LengthStyle): void {
  const { match, rows } = primary;
  const title = titleOf(primary);
  const table = piecesTable(title, rows, style);
  const length = rows.length === 0 ? '' : `${formatLength(match.lengthMm, style)}, `;
  flow.space(2);
  flow.heading(`${title}: ${length}${rowWords(match, style)}`, {
    sizeMm: HEADING_MM,
    followedByMm: rows.length === 0 ? 5 : 5 + tableStartMm(flow, table),
  });
  flow.text(tubeWords(primary.tube));
  if (rows.length > 0) drawTable(flow, table);
  for (const line of builtLines(primary, style)) {
    flow.need(AS_BUILT_MM * LINE_RATIO);
    flow.text(line, { sizeMm: AS_BUILT_MM });
  }
}

const AS_BUILT_MM = 3;

/** A line a reading, and the centreline by all of them; none where nothing was measured. */
export function builtLines({ built }: SheetPrimary, style: LengthStyle): readonly string[] {
  const { lengths, centreline } = built;
  const readings = lengths.map(
    (length) =>
      `As-built, ${METHOD_WORDS[length.kind]}: ${readingSentence(length, style)} ${readingVerdict(length, style)}.`,
  );
  return centreline === null
    ? readings
    : [
        ...readings,
        `As-built centreline: ${formatLength(centreline.lengthMm, style)} ±${formatLength(centreline.withinMm, style)}.`,
      ];
}

function piecesTable(title: string, rows: readonly SheetRow[], style: LengthStyle): Table {
  const unit = unitOf(style);
  return {
    title,
    columns: [
      { heading: '#', share: 8, align: 'end' },
      { heading: 'Piece', share: 23, align: 'start' },
      { heading: `Size (${unit}, °)`, share: 21, align: 'end' },
      { heading: `CLR (${unit})`, share: 16, align: 'end' },
      { heading: `Outside arc (${unit})`, share: 20, align: 'end' },
      { heading: 'Clock (°)', share: 15, align: 'end' },
      { heading: `Mark (${unit})`, share: 17, align: 'end' },
      { heading: `Total (${unit})`, share: 19, align: 'end' },
      { heading: 'Joint', share: 21, align: 'start' },
      { heading: 'State', share: 19, align: 'start' },
    ],
    rows: rows.map((row) => pieceRow(row, style)),
  };
}

function pieceRow(row: SheetRow, style: LengthStyle): TableRow {
  const { piece, number, joint, outsideMm, markMm, totalMm } = row;
  const typed = (length: Length) => typedText(length, unitOf(style));
  const bare = (mm: number | null) => (mm === null ? NONE : formatLengthBare(mm, style));
  const shape =
    piece.kind === 'straight'
      ? [typed(piece.length), '', '', '', '']
      : [
          `${formatTypedAngle(piece.angleDeg)}°`,
          typed(piece.clr),
          bare(outsideMm),
          piece.clockingDeg === null ? NONE : formatTypedAngle(piece.clockingDeg),
          bare(markMm),
        ];
  return {
    cells: [
      String(number),
      pieceName(piece),
      ...shape,
      bare(totalMm),
      joint === null ? 'end' : `${number} ${joint}`,
      piece.locked ? `${piece.state}, locked` : piece.state,
    ],
    below: piece.note === '' ? '' : `Note: ${piece.note}`,
  };
}
