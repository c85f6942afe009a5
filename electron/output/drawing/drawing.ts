/** What is asked for, drawn: as pages to look at, or as the file that leaves the program. */

import {
  assertNever,
  buildSheet,
  csvText,
  failure,
  fixtureSheet,
  makeStrips,
  type Problem,
  type Result,
  safeFileName,
  stripTooLarge,
  success,
} from '../../../core/index.ts';
import type { RequestOf } from '../../bridge/contract.ts';
import type { Drawing, Page } from '../../bridge/page-messages.ts';
import { fixtureCsvRows } from '../fixture/fixture-csv.ts';
import { fixturePages } from '../fixture/fixture-pages.ts';
import { trueSizePlan } from '../fixture/true-size-plan.ts';
import type { FontFiles } from '../pages/font-files.ts';
import { type DrawnPages, printedPages } from '../pages/missing-letters.ts';
import { PAPERS, type Paper } from '../pages/paper.ts';
import { pdfOf } from '../pages/pdf.ts';
import { openTypeface, type Typeface } from '../pages/typeface.ts';
import { buildSheetPages } from '../sheet/build-sheet-pages.ts';
import { sheetCsvRows } from '../sheet/sheet-rows-csv.ts';
import { plotOf } from '../strips/plot.ts';
import { type Curves, dxfOf } from '../strips/strip-dxf.ts';
import { stripPages } from '../strips/strip-pages.ts';
import { svgOf } from '../strips/strip-svg.ts';
import { benchWords, drawingTitle, faultWords, noStripsWords } from './drawing-words.ts';

export interface DrawnFile {
  readonly fileName: string;
  readonly mediaType: string;
  readonly content: string | Uint8Array;
}

type Drawn<Value> = Result<Value, Problem>;

/** Depends on what is asked and on the typeface alone: no clock, no chance, no locale. */
export function drawnPages({ drawing, paper }: RequestOf<'drawPages'>, fonts: FontFiles): Drawn<DrawnPages> {
  return printedPagesOf(drawing, PAPERS[paper], openTypeface(fonts));
}

export async function drawnFile(request: RequestOf<'savePages'>, fonts: FontFiles): Promise<Drawn<DrawnFile>> {
  const { drawing, format } = request;
  switch (format) {
    case 'pdf':
      return pdfFile(request, fonts);
    case 'csv':
      return fileOf(drawing, csvOf(drawing), ['csv', 'text/csv']);
    case 'svg':
      return fileOf(drawing, plotted(drawing, svgOf), ['svg', 'image/svg+xml']);
    case 'dxfArcs':
    case 'dxfChords': {
      const curves: Curves = format === 'dxfArcs' ? 'arcs' : 'chords';
      return fileOf(
        drawing,
        plotted(drawing, (plot) => dxfOf(plot, curves)),
        ['dxf', 'image/vnd.dxf'],
      );
    }
    default:
      return assertNever(format);
  }
}

async function pdfFile({ drawing, paper }: RequestOf<'savePages'>, fonts: FontFiles): Promise<Drawn<DrawnFile>> {
  const typeface = openTypeface(fonts);
  const drawn = printedPagesOf(drawing, PAPERS[paper], typeface);
  if (!drawn.ok) return drawn;
  const content = await pdfOf(drawn.value.pages, `${drawing.header.name}, ${drawingTitle(drawing)}`, typeface);
  return fileOf(drawing, success(content), ['pdf', 'application/pdf']);
}

function fileOf(
  drawing: Drawing,
  content: Drawn<string | Uint8Array>,
  [ending, mediaType]: readonly [string, string],
): Drawn<DrawnFile> {
  if (!content.ok) return content;
  const fileName = safeFileName(drawing.header.name, ` ${drawingTitle(drawing)}.${ending}`);
  return success({ fileName, mediaType, content: content.value });
}

function printedPagesOf(drawing: Drawing, paper: Paper, typeface: Typeface): Drawn<DrawnPages> {
  const pages = pagesOf(drawing, paper, typeface);
  return pages.ok ? success(printedPages(pages.value, typeface)) : pages;
}

function pagesOf(drawing: Drawing, paper: Paper, typeface: Typeface): Drawn<readonly Page[]> {
  const { header } = drawing;
  const fault = faultWords(drawing.fault);
  switch (drawing.kind) {
    case 'sheet':
      return success(buildSheetPages({ sheet: buildSheet(header), plans: drawing.plans, fault }, paper, typeface));
    case 'strips': {
      const strips = makeStrips(header, drawing.strips);
      if (!strips.ok) return strips;
      const none = noStripsWords(drawing.strips);
      const sheet = { name: header.name, title: 'Strips', strips: strips.value, none, fault };
      return success(stripPages(sheet, paper, typeface));
    }
    case 'fixture': {
      const sheet = fixtureSheet(header, drawing.bench);
      if (!sheet.ok) return sheet;
      const plan = drawing.plan === 'trueSize' ? trueSizePlan(sheet.value) : null;
      const tooLarge = plan === null ? null : stripTooLarge(plan);
      if (tooLarge !== null) return failure(tooLarge);
      const look = { plan: drawing.plan, benchWords: benchWords(header, drawing.bench), fault };
      return success(fixturePages(sheet.value, look, { paper, typeface }));
    }
    default:
      return assertNever(drawing);
  }
}

/** The request has been checked: strips leave as drawings, and nothing else does. */
function plotted(drawing: Drawing, write: (plot: ReturnType<typeof plotOf>) => string): Drawn<string> {
  if (drawing.kind !== 'strips') throw new Error(`a ${drawing.kind} is no drawing to plot`);
  const strips = makeStrips(drawing.header, drawing.strips);
  const plot = (found: Parameters<typeof plotOf>[0]) => plotOf(found, drawing.header.name, faultWords(drawing.fault));
  return strips.ok ? success(write(plot(strips.value))) : strips;
}

/** What is wrong with the header is a row of its own, over the headings, as wide as the others. */
function csvOfRows({ fault }: Drawing, rows: readonly (readonly string[])[]): string {
  const words = faultWords(fault);
  if (words === null) return csvText(rows);
  const empty = (rows[0] ?? []).slice(1).map(() => '');
  return csvText([[words, ...empty], ...rows]);
}

function csvOf(drawing: Drawing): Drawn<string> {
  switch (drawing.kind) {
    case 'sheet':
      return success(csvOfRows(drawing, sheetCsvRows({ sheet: buildSheet(drawing.header), plans: drawing.plans })));
    case 'fixture': {
      const sheet = fixtureSheet(drawing.header, drawing.bench);
      return sheet.ok ? success(csvOfRows(drawing, fixtureCsvRows(sheet.value))) : sheet;
    }
    case 'strips':
      throw new Error('strips are no list');
    default:
      return assertNever(drawing);
  }
}
