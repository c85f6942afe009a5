/** Strips on paper in true size: small ones under each other, long ones in parts with lines to join them at. */

import type { Strip } from '../../../core/index.ts';
import type { Page } from '../../bridge/page-messages.ts';
import { PageFlow } from '../pages/flow/page-flow.ts';
import { LINE_RATIO, textLines } from '../pages/flow/text-lines.ts';
import { MARGIN_MM, type Paper } from '../pages/paper.ts';
import { RULE_HEIGHT_MM, trueSizeRule } from '../pages/true-size-rule.ts';
import type { Typeface } from '../pages/typeface.ts';
import { partsOf } from './parts.ts';
import { drawPart } from './strip-part.ts';

export interface StripSheet {
  readonly name: string;
  readonly title: string;
  readonly strips: readonly Strip[];
  /** Said in place of strips when there are none. */
  readonly none: string;
  /** What is wrong with the header, for every page; null: nothing. */
  readonly fault: string | null;
}

const HEADING_MM = 4;
const FACT_MM = 2.9;
const GAP_MM = 5;

export function stripPages(
  { name, title, strips, none, fault }: StripSheet,
  paper: Paper,
  typeface: Typeface,
): readonly Page[] {
  const head = { name, title, foot: 'True size: print at 100 %.', fault };
  const flow = new PageFlow(paper, typeface, head, {
    heightMm: RULE_HEIGHT_MM,
    marks: (topMm) => trueSizeRule([MARGIN_MM, topMm]),
  });
  if (strips.length === 0) flow.text(none);
  for (const strip of strips) drawStrip(flow, strip);
  return flow.pages();
}

/** On the page in hand if it fits there whole, else on a fresh one, else in parts. */
export function drawStrip(flow: PageFlow, strip: Strip): void {
  const wordsMm = wordsHeightMm(flow, strip);
  flow.need(wordsMm + Math.min(strip.heightMm, flow.bottomMm));
  flow.text(strip.name, { sizeMm: HEADING_MM, isBold: true });
  for (const fact of strip.facts) flow.text(fact, { sizeMm: FACT_MM });
  flow.space(2);
  const parts = partsOf(strip, { widthMm: flow.widthMm, heightMm: flow.roomMm });
  parts.forEach((part, at) => {
    const heightMm = part.window.bottom - part.window.top;
    if (at > 0) {
      flow.need(heightMm + HEADING_MM * LINE_RATIO + 2);
      flow.text(`${strip.name}, part ${at + 1} of ${parts.length}`, { sizeMm: HEADING_MM, isBold: true });
      flow.space(2);
    }
    drawPart(flow, strip, part);
    flow.space(heightMm + GAP_MM);
  });
}

function wordsHeightMm(flow: PageFlow, { name, facts }: Strip): number {
  const lines = (text: string, sizeMm: number, isBold: boolean) =>
    textLines(flow.typeface, text, { sizeMm, isBold, widthMm: flow.widthMm }).length * sizeMm * LINE_RATIO;
  return lines(name, HEADING_MM, true) + facts.reduce((sum, fact) => sum + lines(fact, FACT_MM, false), 0) + 2;
}
