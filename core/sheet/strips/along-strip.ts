/** A strip along a whole primary: saw lines at every joint and the inside of every bend, in true size along the centreline. */

import type { Header, Primary } from '../../header/header.ts';
import { tubeOf } from '../../header/header.ts';
import { primaryTitle } from '../../length/describe-match.ts';
import { pieceLength } from '../../length/piece-length.ts';
import { cutWords, pieceName } from '../../length/piece-words.ts';
import { formatAngle } from '../../units/format-angle.ts';
import { formatLength } from '../../units/format-length.ts';
import { mmOf } from '../../units/length.ts';
import type { LengthStyle } from '../../units/length-style.ts';
import { type SheetRow, sheetRows } from '../sheet-rows.ts';
import { at, rectangle, type Strip, type StripLabel, type StripLine, straightLine } from './strip.ts';

/** Room for a line of words, mm. */
const LINE_MM = 4;

/**
 * The port is at the left and the way runs to the right; from the port-up line, the upper edge, downwards is clockwise as seen from the
 * port, and the lower edge meets the upper one. Bends are as long as their centreline: on the tube the strip lies true on straights,
 * and on a bend along its sides. Null without pieces of any length.
 */
export function alongStrip(header: Header, primary: Primary): Strip | null {
  const tube = tubeOf(header, primary);
  const style = header.settings.display;
  const rows = sheetRows(primary, tube, primary.pieces.map(pieceLength));
  const lengthMm = rows.at(-1)?.totalMm ?? 0;
  if (!(lengthMm > 0) || !Number.isFinite(lengthMm)) return null;
  const roundMm = Math.PI * mmOf(tube.od);
  return {
    name: `${primaryTitle(primary.name)}, from port to collector`,
    facts: [
      `${formatLength(lengthMm, style)} along the centreline, ${formatLength(roundMm, style)} round a tube of ${cutWords(tube.od, style)} OD.`,
      'The upper edge is the port-up line; downwards is clockwise as seen from the port. A line across is a joint, a line along a bend is its inside.',
    ],
    widthMm: lengthMm,
    heightMm: roundMm,
    lines: [rectangle('edge', lengthMm, roundMm), ...rows.flatMap((row) => linesOf(row, rows, roundMm))],
    labels: rows.flatMap((row) => labelsOf(row, { style, roundMm })),
  };
}

function linesOf(
  { markMm, totalMm, lengthMm }: SheetRow,
  rows: readonly SheetRow[],
  roundMm: number,
): readonly StripLine[] {
  const across = straightLine('saw', at(totalMm, 0), at(totalMm, roundMm));
  const isEnd = totalMm === rows.at(-1)?.totalMm;
  const inside = markMm === null ? [] : [straightLine('mark', at(totalMm - lengthMm, markMm), at(totalMm, markMm))];
  return isEnd ? inside : [across, ...inside];
}

function labelsOf(
  { number, piece, totalMm, lengthMm, markMm, joint }: SheetRow,
  { style, roundMm }: { readonly style: LengthStyle; readonly roundMm: number },
): readonly StripLabel[] {
  const x = totalMm - lengthMm + 2;
  const size =
    piece.kind === 'straight'
      ? cutWords(piece.length, style)
      : `${formatAngle(piece.angleDeg)}, CLR ${cutWords(piece.clr, style)}`;
  // Clear of the line along the bend, wherever that is.
  const middleMm = roundMm / 2;
  const y = markMm !== null && Math.abs(markMm - middleMm) < 2 * LINE_MM ? middleMm / 2 : middleMm;
  const words: StripLabel[] = [{ at: at(x, y), text: `${number} ${pieceName(piece)} ${size}`, isUpright: false }];
  words.push({
    at: at(Math.max(0.5, totalMm - 3.2), 2),
    text: `${joint === null ? 'end' : `joint ${number}`}: ${formatLength(totalMm, style)}`,
    isUpright: true,
  });
  if (markMm === null) return words;
  const isLow = markMm < LINE_MM + 1;
  const text = `inside, ${formatLength(markMm, style)} round`;
  return [...words, { at: at(x, isLow ? markMm + LINE_MM : markMm - 1), text, isUpright: false }];
}
