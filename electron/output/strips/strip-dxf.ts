/** Strips as a DXF in millimetres, a layer for each kind of line. */

import Drawing from 'dxf-writer';
import handle from 'dxf-writer/src/Handle.js';
import { arcRuns, type StripPoint } from '../../../core/index.ts';
import { rounded } from '../pages/marks.ts';
import type { Plot, PlotLine } from './plot.ts';

const LAYERS = {
  edge: 'EDGE',
  saw: 'SAW',
  mark: 'MARK',
  guide: 'GUIDE',
  rule: 'RULE',
} as const satisfies Readonly<Record<PlotLine['use'], string>>;
const WORDS = 'WORDS';

/** Some programs read no arcs in a polyline: for them curves are short straights. */
export type Curves = 'arcs' | 'chords';

export function dxfOf({ heightMm, lines, words }: Plot, curves: Curves): string {
  // Parts are numbered on from file to file; the same strips must give the same file.
  handle.seed = 0;
  const drawing = new Drawing();
  drawing.setUnits('Millimeters');
  for (const name of [...Object.values(LAYERS), WORDS]) drawing.addLayer(name, Drawing.ACI.WHITE, 'CONTINUOUS');
  // A drawing's y runs up the sheet.
  const turned = ({ xMm, yMm }: StripPoint): StripPoint => ({ xMm: rounded(xMm), yMm: rounded(heightMm - yMm) });
  for (const { use, points } of lines) {
    drawing.setActiveLayer(LAYERS[use]);
    drawing.drawPolyline(vertices(points.map(turned), use === 'saw' ? curves : 'chords'));
  }
  drawing.setActiveLayer(WORDS);
  for (const { text, at, sizeMm, isUpright } of words) {
    const { xMm, yMm } = turned(at);
    drawing.drawText(xMm, yMm, sizeMm, isUpright ? -90 : 0, plainText(text));
  }
  return drawing.toDxfString();
}

/** The library takes a bulge as a third figure, though its types name two. */
function vertices(points: readonly StripPoint[], curves: Curves): [number, number][] {
  if (curves === 'chords') return points.map(({ xMm, yMm }) => [xMm, yMm]);
  return arcRuns(points).map(({ xMm, yMm, bulge }) => [xMm, yMm, bulge] as unknown as [number, number]);
}

/** The format knows ASCII; others are named by their number, four digits to each unit of UTF-16. */
function plainText(text: string): string {
  return text
    .replaceAll('\u2009', ' ')
    .replaceAll(/[^\x20-\x7e]/g, (unit) => `\\U+${unit.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}`);
}
