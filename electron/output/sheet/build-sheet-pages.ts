/** The build sheet on paper: summary, chart, three flat views, the pieces of every primary, cautions. */

import { type BuildSheet, CAUTIONS, type Header, type KeptPlan } from '../../../core/index.ts';
import type { Page } from '../../bridge/page-messages.ts';
import { PageFlow } from '../pages/flow/page-flow.ts';
import { LINE_RATIO, textLines } from '../pages/flow/text-lines.ts';
import type { Paper } from '../pages/paper.ts';
import type { Typeface } from '../pages/typeface.ts';
import { drawChart } from './chart.ts';
import { drawCutLists } from './cut-list-part.ts';
import { drawPrimary, PIECES_LEGEND } from './primary-part.ts';
import { drawSummary } from './summary.ts';
import { drawViews } from './views.ts';

const NAME_MM = 6.5;
const HEADING_MM = 4.2;

export const CHECK_WORDS = 'Check every figure against the tube before it is cut.';

export interface SheetOnPaper {
  readonly sheet: BuildSheet;
  /** Cut plans that were carried out. */
  readonly plans: readonly KeptPlan[];
  /** What is wrong with the header, for every page; null: nothing. */
  readonly fault: string | null;
}

export function buildSheetPages(
  { sheet, plans, fault }: SheetOnPaper,
  paper: Paper,
  typeface: Typeface,
): readonly Page[] {
  const { header } = sheet;
  const flow = new PageFlow(paper, typeface, { name: header.name, title: 'Build sheet', foot: CHECK_WORDS, fault });
  drawTitle(flow, header);
  drawSummary(flow, sheet);
  drawChart(flow, sheet);
  drawViews(flow, sheet);
  if (sheet.primaries.length > 0) {
    flow.need(40);
    flow.text(PIECES_LEGEND, { sizeMm: 2.8 });
    flow.space(2);
  }
  for (const primary of sheet.primaries) drawPrimary(flow, primary, header.settings.display);
  drawCutLists(flow, plans, header.settings.display);
  drawCautions(flow);
  return flow.pages();
}

function drawTitle(flow: PageFlow, { name, note, state }: Header): void {
  flow.text(state === 'finished' ? `${name} (finished)` : name, { sizeMm: NAME_MM, isBold: true });
  if (note !== '') flow.text(note);
  flow.space(2);
}

const CAUTION_MM = 2.8;

function drawCautions(flow: PageFlow): void {
  flow.space(2);
  flow.heading('Cautions', { sizeMm: HEADING_MM, followedByMm: 12 });
  flow.text('Local codes, the makers\u2019 data sheets and licensed practice come first. Help says more.', {
    sizeMm: CAUTION_MM,
  });
  flow.space(1);
  for (const { title, short, source } of CAUTIONS) {
    const text = `${title}: ${short} Source: ${source}`;
    const room = { sizeMm: CAUTION_MM, isBold: false, widthMm: flow.widthMm };
    flow.need(textLines(flow.typeface, text, room).length * CAUTION_MM * LINE_RATIO);
    flow.text(text, { sizeMm: CAUTION_MM });
    flow.space(0.8);
  }
}
