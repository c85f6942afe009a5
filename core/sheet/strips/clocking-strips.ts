/** A small strip for every bend of a primary: wrapped round the tube at its joint, it says where the bend's inside comes to lie. */

import type { Header, Primary } from '../../header/header.ts';
import { tubeOf } from '../../header/header.ts';
import { primaryTitle } from '../../length/describe-match.ts';
import { pieceLength } from '../../length/piece-length.ts';
import { formatAngle } from '../../units/format-angle.ts';
import { formatLength } from '../../units/format-length.ts';
import { mmOf } from '../../units/length.ts';
import type { LengthStyle } from '../../units/length-style.ts';
import { type SheetRow, sheetRows } from '../sheet-rows.ts';
import { at, rectangle, type Strip, type StripLabel, type StripLine, straightLine } from './strip.ts';

const HEIGHT_MM = 34;
const TEN_DEG_TICKS = 36;

/** One strip a bend whose clocking is known all the way from the port, from the port on. */
export function clockingStrips(header: Header, primary: Primary): readonly Strip[] {
  const tube = tubeOf(header, primary);
  const rows = sheetRows(primary, tube, primary.pieces.map(pieceLength));
  const roundMm = Math.PI * mmOf(tube.od);
  const style = header.settings.display;
  let before: SheetRow | null = null;
  return rows.flatMap((row): readonly Strip[] => {
    if (row.markMm === null) return [];
    const strip = clockingStrip(row, { before, roundMm, style, title: primaryTitle(primary.name) });
    before = row;
    return [strip];
  });
}

interface Round {
  readonly before: SheetRow | null;
  readonly roundMm: number;
  readonly style: LengthStyle;
  readonly title: string;
}

/** Upwards is along the way to the collector; to the right is clockwise as seen from the port. */
function clockingStrip(row: SheetRow, { before, roundMm, style, title }: Round): Strip {
  const markMm = row.markMm ?? 0;
  const startMm = row.totalMm - row.lengthMm;
  const clockingDeg = row.piece.kind === 'straight' ? 0 : (row.piece.clockingDeg ?? 0);
  const from = before === null ? 'from port-up' : `from the inside of piece ${before.number}`;
  return {
    name: `${title}, piece ${row.number}`,
    facts: [
      `At ${formatLength(startMm, style)} from the port: inside of the bend ${formatLength(markMm, style)} round from the port-up line, clocked ${formatAngle(clockingDeg)} ${from}. Its upper edge is square to the tube.`,
    ],
    widthMm: roundMm,
    heightMm: HEIGHT_MM,
    lines: [
      rectangle('edge', roundMm, HEIGHT_MM),
      ...ticks(roundMm),
      straightLine('saw', at(markMm, 0), at(markMm, HEIGHT_MM - 10)),
      ...(before?.markMm == null
        ? []
        : [straightLine('mark', at(before.markMm, 8), at(before.markMm, HEIGHT_MM - 10))]),
    ],
    labels: [
      ...sideLabels(roundMm, { markMm, number: row.number, before }),
      { at: at(1.5, HEIGHT_MM - 1.5), text: 'port-up line; collector is up', isUpright: false },
    ],
  };
}

/** Every 10 degrees, longer at 90. */
function ticks(roundMm: number): readonly StripLine[] {
  return Array.from({ length: TEN_DEG_TICKS - 1 }, (_, index): StripLine => {
    const x = (roundMm * (index + 1)) / TEN_DEG_TICKS;
    return straightLine('guide', at(x, HEIGHT_MM - ((index + 1) % 9 === 0 ? 9 : 7)), at(x, HEIGHT_MM - 4.5));
  });
}

function sideLabels(
  roundMm: number,
  { markMm, number, before }: { readonly markMm: number; readonly number: number; readonly before: SheetRow | null },
): readonly StripLabel[] {
  const beside = (x: number, y: number, text: string): StripLabel => ({
    // Words for a line near the right edge would run off the paper.
    at: at(x + 1.5 + text.length * 1.4 > roundMm ? Math.max(1, x - 1.5 - text.length * 1.4) : x + 1.5, y),
    text,
    isUpright: false,
  });
  const own = beside(markMm, 5, `inside of ${number}`);
  return before?.markMm == null ? [own] : [own, beside(before.markMm, 13, `inside of ${before.number}`)];
}
