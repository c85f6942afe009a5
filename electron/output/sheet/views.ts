/** Three flat views of the header, all to one scale. */

import { type BuildSheet, describeProblem, type FlatPoint, type FlatView } from '../../../core/index.ts';
import type { PageFlow } from '../pages/flow/page-flow.ts';
import { words } from '../pages/marks.ts';
import { boundsOf, drawnTubes, neatScale } from './flat-drawing.ts';

const HEIGHT_MM = 66;
const GAP_MM = 4;
const CAPTION_MM = 2.8;

export function drawViews(flow: PageFlow, { views, notWhole }: BuildSheet): void {
  if (views.length === 0) {
    if (notWhole.length > 0) flow.text(notWhole.map(describeProblem).join(' '), { sizeMm: CAPTION_MM });
    flow.space(2);
    return;
  }
  flow.need(HEIGHT_MM + 3 * CAPTION_MM * 2);
  const widthMm = (flow.widthMm - GAP_MM * (views.length - 1)) / views.length;
  const scale = Math.max(...views.map((view) => scaleFor(view, widthMm)));
  views.forEach((view, at) => {
    const left = flow.leftMm + at * (widthMm + GAP_MM);
    drawView(flow, view, { left, widthMm, scale });
  });
  flow.yMm += HEIGHT_MM;
  views.forEach((view, at) => {
    const left = flow.leftMm + at * (widthMm + GAP_MM);
    flow.draw(words(`${view.name}: ${view.way}`, [left, flow.yMm + CAPTION_MM], { sizeMm: CAPTION_MM }));
  });
  flow.yMm += CAPTION_MM * 1.6;
  const notes = notWhole.map(describeProblem).join(' ');
  flow.text(`Scale 1:${scale}, all three. ${notes}`.trim(), { sizeMm: CAPTION_MM });
  flow.space(3);
}

/** What is drawn and its room about it, in mm of the header. */
function viewPoints({ tubes, inlets }: FlatView): readonly FlatPoint[] {
  return [
    ...inlets.flat(),
    ...tubes.flatMap(({ pieces }) => pieces.flatMap(({ ends, centreline }) => [...ends.flat(), ...centreline])),
  ];
}

function widest({ tubes }: FlatView): number {
  return Math.max(...tubes.map(({ odMm }) => odMm));
}

function scaleFor(view: FlatView, widthMm: number): number {
  const { lowX, highX, lowY, highY } = boundsOf(viewPoints(view));
  const odMm = widest(view);
  return neatScale(Math.max((highX - lowX + odMm) / widthMm, (highY - lowY + odMm) / (HEIGHT_MM - 2)));
}

function drawView(
  flow: PageFlow,
  view: FlatView,
  { left, widthMm, scale }: { readonly left: number; readonly widthMm: number; readonly scale: number },
): void {
  const { lowX, highX, lowY, highY } = boundsOf(viewPoints(view));
  const [middleX, middleY] = [(lowX + highX) / 2, (lowY + highY) / 2];
  const place = ({ xMm, yMm }: FlatPoint) =>
    [left + widthMm / 2 + (xMm - middleX) / scale, flow.yMm + HEIGHT_MM / 2 - (yMm - middleY) / scale] as const;
  flow.draw(
    ...drawnTubes(view, {
      place,
      scale,
      typeface: flow.typeface,
      labelMm: 3,
      within: [left, left + widthMm],
    }),
  );
}
