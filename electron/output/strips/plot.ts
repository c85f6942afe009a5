/** Strips laid out under each other on one drawing of any size, for plotters and cutters: the SVG and the DXF are made of it. */

import type { Strip, StripPoint } from '../../../core/index.ts';

export interface PlotWords {
  readonly text: string;
  readonly at: StripPoint;
  readonly sizeMm: number;
  readonly isUpright: boolean;
}

export interface PlotLine {
  /** A use of a strip's lines, or `rule` for the rules to check the drawing by. */
  readonly use: Strip['lines'][number]['use'] | 'rule';
  readonly points: readonly StripPoint[];
}

/** In mm from the upper left corner, y down. */
export interface Plot {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly lines: readonly PlotLine[];
  readonly words: readonly PlotWords[];
}

const EDGE_MM = 10;
const GAP_MM = 12;
const HEADING_MM = 4;
const FACT_MM = 3;
const LABEL_MM = 2.6;
const LINE_RATIO = 1.4;
const RULES_MM = 26;

/**
 * `fault`: what is wrong with the header, for the head of the drawing; null: nothing. Wide enough for the rules and every strip; words may run past the edge of a narrow one, and are no part of what is cut.
 */
export function plotOf(strips: readonly Strip[], title: string, fault: string | null): Plot {
  const lines: PlotLine[] = [...rule(EDGE_MM + 14, 100, 10), ...rule(EDGE_MM + 22, 4 * 25.4, 4)];
  const words: PlotWords[] = [
    said(`${title}. True size: measure both rules before you cut.`, EDGE_MM + 4, HEADING_MM),
    { ...said('100 mm', EDGE_MM + 14, FACT_MM), at: { xMm: EDGE_MM + 103, yMm: EDGE_MM + 14 } },
    { ...said('4 in', EDGE_MM + 22, FACT_MM), at: { xMm: EDGE_MM + 104, yMm: EDGE_MM + 22 } },
  ];
  let top = EDGE_MM + RULES_MM;
  for (const sentence of fault === null ? [] : sentencesOf(fault)) {
    top += HEADING_MM * LINE_RATIO;
    words.push(said(sentence, top, HEADING_MM));
  }
  for (const strip of strips) {
    top += GAP_MM;
    words.push(said(strip.name, top, HEADING_MM));
    for (const fact of strip.facts) {
      top += FACT_MM * LINE_RATIO;
      words.push(said(fact, top, FACT_MM));
    }
    top += FACT_MM * LINE_RATIO;
    const move = ({ xMm, yMm }: StripPoint): StripPoint => ({ xMm: xMm + EDGE_MM, yMm: yMm + top });
    lines.push(...strip.lines.map(({ use, points }) => ({ use, points: points.map(move) })));
    words.push(...strip.labels.map(({ at, ...label }) => ({ ...label, at: move(at), sizeMm: LABEL_MM })));
    top += strip.heightMm;
  }
  const widthMm = Math.max(150, ...strips.map((strip) => strip.widthMm)) + 2 * EDGE_MM;
  return { widthMm, heightMm: top + EDGE_MM, lines, words };
}

/** A line each: lines of a drawing are not broken, and a narrow one ends soon. */
function sentencesOf(text: string): readonly string[] {
  return text.split(/(?<=[.:]) /u);
}

function said(text: string, yMm: number, sizeMm: number): PlotWords {
  return { text, at: { xMm: EDGE_MM, yMm }, sizeMm, isUpright: false };
}

function rule(yMm: number, lengthMm: number, parts: number): readonly PlotLine[] {
  const at = (xMm: number, y: number): StripPoint => ({ xMm: EDGE_MM + xMm, yMm: y });
  const ticks = Array.from({ length: parts + 1 }, (_, part): PlotLine => {
    const x = (lengthMm * part) / parts;
    return { use: 'rule', points: [at(x, yMm - 3), at(x, yMm)] };
  });
  return [{ use: 'rule', points: [at(0, yMm), at(lengthMm, yMm)] }, ...ticks];
}
