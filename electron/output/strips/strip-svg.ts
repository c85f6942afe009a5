/** Strips as an SVG whose unit is the millimetre. */

import { rounded } from '../pages/marks.ts';
import type { Plot, PlotLine, PlotWords } from './plot.ts';

/** Strokes by what a line is for; cutters go by the colour, people by the class. */
const STROKES: Readonly<Record<PlotLine['use'], string>> = {
  edge: '#808080',
  saw: '#000000',
  mark: '#0000c0',
  guide: '#a0a0a0',
  rule: '#000000',
};

export function svgOf({ widthMm, heightMm, lines, words }: Plot): string {
  const [width, height] = [rounded(widthMm), rounded(heightMm)];
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}">`,
    ...lines.map(path),
    ...words.map(text),
    '</svg>',
    '',
  ].join('\n');
}

function path({ use, points }: PlotLine): string {
  const way = points.map(({ xMm, yMm }, at) => `${at === 0 ? 'M' : 'L'}${rounded(xMm)} ${rounded(yMm)}`).join('');
  return `<path class="${use}" d="${way}" fill="none" stroke="${STROKES[use]}" stroke-width="0.2"/>`;
}

function text({ text: said, at, sizeMm, isUpright }: PlotWords): string {
  const [x, y] = [rounded(at.xMm), rounded(at.yMm)];
  const turn = isUpright ? ` transform="rotate(90 ${x} ${y})"` : '';
  return `<text x="${x}" y="${y}" font-family="sans-serif" font-size="${sizeMm}"${turn}>${escaped(said)}</text>`;
}

const ENTITIES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/** A thin space is drawn too wide by many programs. */
function escaped(said: string): string {
  return said.replaceAll('\u2009', ' ').replaceAll(/[&<>"]/g, (character) => ENTITIES[character] ?? character);
}
