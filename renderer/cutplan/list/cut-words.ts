/** Where the saw goes, what comes off and what is written on it, in words. */

import {
  assertNever,
  type CutGift,
  type CutStep,
  formatAngle,
  type LengthStyle,
  type SawMark,
  type SawSettings,
  type StockRow,
} from '../../../core/index.ts';
import { cutWords } from '../../ui/words/piece-words.ts';
import { type PlacedPieces, pieceMark, pieceWords } from './plan-pieces.ts';

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
      return `Keep: remnant, ${rowWords(gift.stock, style)}`;
    case 'scrap':
      return `Scrap, ${lengthWords(gift.lengthMm, style)}`;
    default:
      return assertNever(gift);
  }
}

/** What to write on what comes off: `2-5`, `2-4 + 2-5`, the size of a remnant; nothing on scrap. */
export function writeOnWords(gift: CutGift, pieces: PlacedPieces, style: LengthStyle): string {
  if (gift.kind === 'scrap') return '';
  if (gift.kind === 'remnant') return `${gift.stock.tube.material}, ${rowWords(gift.stock, style)}`;
  return gift.pieceIds
    .flatMap((id) => {
      const placed = pieces.get(id);
      return placed === undefined ? [] : [pieceMark(placed)];
    })
    .join(' + ');
}

/** `1 3/4" straight, 11 1/2"`, `1 3/4" bend, CLR 3", 38°, first leg 4", other leg 0"`. */
export function rowWords(row: StockRow, style: LengthStyle): string {
  const length = (mm: number) => lengthWords(mm, style);
  const tube = `${length(row.tube.odMm)} ${row.kind}`;
  if (row.kind === 'straight') return `${tube}, ${length(row.lengthMm)}`;
  const [first, other] = row.legsMm;
  return `${tube}, CLR ${length(row.clrMm)}, ${formatAngle(row.angleDeg)}, first leg ${length(first)}, other leg ${length(other)}`;
}
