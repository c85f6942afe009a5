/** The build sheet as rows for a spreadsheet: a row a primary, a row a piece, and the figures of the whole header. */

import {
  type BuildSheet,
  cutList,
  type KeptPlan,
  type LengthStyle,
  MM_PER_INCH,
  mmOf,
  rowWords,
  type SheetPrimary,
  type SheetRow,
  unitOf,
} from '../../../core/index.ts';
import type { SheetOnPaper } from './build-sheet-pages.ts';
import { inletWords } from './chart.ts';
import { cutCells, itemTitle } from './cut-list-part.ts';
import { builtLines } from './primary-part.ts';
import { summaryFigures, tubeWords } from './summary.ts';

/** Lengths to a ten-thousandth, in the header's unit; a spreadsheet shows what it likes of them. */
const PLACES = 4;

/** Headings first. Lengths are decimals in the unit that the headings name. */
export function sheetCsvRows({ sheet, plans }: Omit<SheetOnPaper, 'fault'>): readonly (readonly string[])[] {
  const style = sheet.header.settings.display;
  const unit = unitOf(style);
  const heading = [
    'row',
    'primary',
    'piece',
    'kind',
    'pies',
    `length (${unit})`,
    `total (${unit})`,
    'angle (deg)',
    `clr (${unit})`,
    `outside arc (${unit})`,
    'clocking (deg)',
    `mark (${unit})`,
    'joint',
    'state',
    'locked',
    'note',
  ];
  const width = heading.length;
  const wide = (cells: readonly string[]) => [...cells, ...Array.from({ length: width - cells.length }, () => '')];
  return [
    heading,
    ...summaryFigures(sheet).map(([name, value]) => noted(wide(['header', '', '', name]), value)),
    ...sheet.primaries.flatMap((primary) => [
      primaryRow(primary, sheet, wide),
      ...primary.rows.map((row) => pieceCells(primary, row, style)),
      ...builtLines(primary, style).map((words) => noted(wide(['as-built', primary.primary.name]), words)),
    ]),
    ...plans.flatMap((kept) => cutRows(kept, style).map(([cut, words]) => noted(wide(['cut', '', cut]), words))),
  ];
}

/** A row a cut: its number, and in words its stock, line, what comes off and what is written on it. */
function cutRows(kept: KeptPlan, style: LengthStyle): readonly (readonly [cut: string, words: string])[] {
  return cutList(kept.problem, kept.plan).flatMap((work, index) => {
    const item = { kept, work, number: index + 1 };
    return work.steps.map((step, at): readonly [string, string] => {
      const [cut = '', ...words] = cutCells(item, { step, at }, style);
      return [cut, [itemTitle(item, style), ...words].join('; ')];
    });
  });
}

function noted(cells: readonly string[], note: string): readonly string[] {
  return [...cells.slice(0, -1), note];
}

function primaryRow(
  primary: SheetPrimary,
  { header }: BuildSheet,
  wide: (cells: readonly string[]) => readonly string[],
): readonly string[] {
  const style = header.settings.display;
  const length = figure(primary.match.lengthMm, style);
  const words = [tubeWords(primary.tube), rowWords(primary.match, style), inletWords(primary, header)].join('; ');
  return noted(wide(['primary', primary.primary.name, '', '', '', length, length]), words);
}

function pieceCells(primary: SheetPrimary, row: SheetRow, style: LengthStyle): readonly string[] {
  const { piece } = row;
  const isStraight = piece.kind === 'straight';
  const or = (text: string) => (isStraight ? '' : text);
  return [
    'piece',
    primary.primary.name,
    String(row.number),
    piece.kind === 'pieCut' ? 'pie cut' : piece.kind,
    piece.kind === 'pieCut' ? String(piece.pies) : '',
    figure(row.lengthMm, style),
    figure(row.totalMm, style),
    isStraight ? '' : plain(piece.angleDeg),
    isStraight ? '' : figure(mmOf(piece.clr), style),
    or(row.outsideMm === null ? '' : figure(row.outsideMm, style)),
    isStraight || piece.clockingDeg === null ? '' : plain(piece.clockingDeg),
    row.markMm === null ? '' : figure(row.markMm, style),
    row.joint ?? 'end',
    piece.state,
    piece.locked ? 'yes' : 'no',
    piece.note,
  ];
}

function figure(mm: number, style: LengthStyle): string {
  return plain(style.kind === 'mm' ? mm : mm / MM_PER_INCH);
}

/** A decimal without trailing zeros, and never minus zero. */
function plain(value: number): string {
  return String(Number(value.toFixed(PLACES)) + 0);
}
