/** Where the saw goes, what comes off and what is written on it, in words. */

import type { Piece } from '../../../header/header.ts';
import { primaryTitle } from '../../../length/describe-match.ts';
import { cutWords, pieceName } from '../../../length/piece-words.ts';
import { assertNever } from '../../../result.ts';
import { formatAngle } from '../../../units/format-angle.ts';
import type { LengthStyle } from '../../../units/length-style.ts';
import type { SawSettings, StockRow } from '../cut-problem.ts';
import type { PlacedPiece } from '../kept-plan.ts';
import type { CutGift, CutStep } from './cut-list.ts';
import type { SawMark } from './saw-mark.ts';

/** By their ids in the plan. */
export type PlacedPieces = ReadonlyMap<string, PlacedPiece>;

/** Less than this is rounding, mm. */
const NOTHING_MM = 1e-6;

function lengthWords(mm: number, style: LengthStyle): string {
  return cutWords({ value: mm, unit: 'mm' }, style);
}

/** Where a line is drawn on the uncut item. */
export function markWords(line: SawMark, style: LengthStyle): string {
  const length = (mm: number) => lengthWords(mm, style);
  switch (line.on) {
    case 'straight':
      return `${length(line.fromEndMm)} from the first end`;
    case 'firstLeg':
      return `${length(line.fromEndMm)} from the end of the first leg`;
    case 'otherLeg':
      return `${length(line.fromEndMm)} from the end of the other leg`;
    case 'arc':
      return `${formatAngle(line.angleDeg)} into the bend: outside arc ${length(line.outsideMm)}, inside arc ${length(line.insideMm)}`;
    default:
      return assertNever(line);
  }
}

/** On which side of the line the saw runs, or that only the last of the tube is dressed off. */
export function kerfWords({ saw }: CutStep, settings: SawSettings, style: LengthStyle): string {
  if (saw === null) return '';
  if (saw.widthMm < settings.kerfMm - NOTHING_MM) return `dress off the last ${lengthWords(saw.widthMm, style)}`;
  return saw.kerfLies === 'beyond' ? 'saw beyond the line' : 'saw before the line';
}

/** What comes off as one piece of tube: the pieces of the header in it, what to keep, or scrap. */
export function giftWords(gift: CutGift, pieces: PlacedPieces, style: LengthStyle): string {
  switch (gift.kind) {
    case 'pieces': {
      const words = gift.pieceIds.flatMap((id) => {
        const placed = pieces.get(id);
        return placed === undefined ? [] : [pieceWords(placed, style)];
      });
      return words.length > 1 ? `${words.join(' + ')}, in one, not cut apart` : words.join('');
    }
    case 'remnant':
      return `Keep: remnant, ${stockRowWords(gift.stock, style)}`;
    case 'scrap':
      return `Scrap, ${lengthWords(gift.lengthMm, style)}`;
    default:
      return assertNever(gift);
  }
}

/** What to write on what comes off: `2-5`, `2-4 + 2-5`, the size of a remnant; nothing on scrap. */
export function writeOnWords(gift: CutGift, pieces: PlacedPieces, style: LengthStyle): string {
  if (gift.kind === 'scrap') return '';
  if (gift.kind === 'remnant') return `${gift.stock.tube.material}, ${stockRowWords(gift.stock, style)}`;
  return gift.pieceIds
    .flatMap((id) => {
      const placed = pieces.get(id);
      return placed === undefined ? [] : [pieceMark(placed)];
    })
    .join(' + ');
}

/** `1 3/4" straight, 11 1/2"`, `1 3/4" bend, CLR 3", 38°, first leg 4", other leg 0"`. */
export function stockRowWords(row: StockRow, style: LengthStyle): string {
  const length = (mm: number) => lengthWords(mm, style);
  const tube = `${length(row.tube.odMm)} ${row.kind}`;
  if (row.kind === 'straight') return `${tube}, ${length(row.lengthMm)}`;
  const [first, other] = row.legsMm;
  return `${tube}, CLR ${length(row.clrMm)}, ${formatAngle(row.angleDeg)}, first leg ${length(first)}, other leg ${length(other)}`;
}
/** `2-5`: the fifth piece of primary 2. Short enough for a paint pen on a tube; `Left bank 2-5` where several headers are cut together. */
export function pieceMark({ headerName, primaryName, pieceNumber }: PlacedPiece): string {
  const mark = `${primaryName}-${pieceNumber}`;
  return headerName === null ? mark : `${headerName} ${mark}`;
}

/** `Primary 2, piece 5: bend 90°, CLR 3"`. */
export function pieceWords(placed: PlacedPiece, style: LengthStyle): string {
  const { piece, headerName, primaryName, pieceNumber } = placed;
  const header = headerName === null ? '' : `${headerName}, `;
  return `${header}${primaryTitle(primaryName)}, piece ${pieceNumber}: ${sizeWords(piece, style)}`;
}

function sizeWords(piece: Piece, style: LengthStyle): string {
  if (piece.kind === 'straight') return `${pieceName(piece)} ${cutWords(piece.length, style)}`;
  return `${pieceName(piece)} ${formatAngle(piece.angleDeg)}, CLR ${cutWords(piece.clr, style)}`;
}
