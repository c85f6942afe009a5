/** Pages as the program draws them, and what can be asked of any page: is everything on it, apart, and in its place. */

import { fileURLToPath } from 'node:url';
import { expect } from 'vitest';
import type { Drawing, Page, PageText, PaperName } from '../../../../electron/bridge/page-messages.ts';
import { drawnPages } from '../../../../electron/output/drawing/drawing.ts';
import { readFontFiles } from '../../../../electron/output/pages/font-files.ts';
import { MARGIN_MM } from '../../../../electron/output/pages/paper.ts';
import { openTypeface } from '../../../../electron/output/pages/typeface.ts';

export const FONTS = readFontFiles(fileURLToPath(import.meta.url));
const typeface = openTypeface(FONTS);

export function pagesOf(drawing: Drawing, paper: PaperName): readonly Page[] {
  return drawnOf(drawing, paper).pages;
}

export function drawnOf(drawing: Drawing, paper: PaperName) {
  const drawn = drawnPages({ drawing, paper }, FONTS);
  if (!drawn.ok) throw new Error(JSON.stringify(drawn.problems));
  return drawn.value;
}

export function textsOn(page: Page): readonly PageText[] {
  return page.marks.filter((mark): mark is PageText => mark.kind === 'text');
}

/** All words of a page in the order in which they are drawn, one space between. */
export function wordsOn(page: Page): string {
  return textsOn(page)
    .map(({ text }) => text)
    .join(' ')
    .replaceAll(/\s+/g, ' ');
}

export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** What the letters of a text cover, without the room for hooks below their feet. */
export function boxOf({ text, at: [x, y], align, sizeMm, isBold, isTurned }: PageText): Box {
  const width = typeface.widthMm(text, { sizeMm, isBold });
  const start = align === 'start' ? 0 : align === 'end' ? -width : -width / 2;
  if (isTurned) return { left: x, right: x + 0.7 * sizeMm, top: y + start, bottom: y + start + width };
  return { left: x + start, right: x + start + width, top: y - 0.7 * sizeMm, bottom: y };
}

const HAIR_MM = 0.05;

/** Words that run out of the printed part, and pairs of words that lie on each other. */
export function faultsOf(page: Page): readonly string[] {
  const boxes = textsOn(page)
    .filter(({ text }) => text !== '')
    .map((text) => ({ text: text.text, box: boxOf(text) }));
  const edge = MARGIN_MM - HAIR_MM;
  const out = boxes.filter(
    ({ box }) =>
      box.left < edge || box.right > page.widthMm - edge || box.top < edge || box.bottom > page.heightMm - edge,
  );
  const over = boxes.flatMap((a, at) =>
    boxes.slice(at + 1).flatMap((b) => (isOver(a.box, b.box) ? [`${a.text} / ${b.text}`] : [])),
  );
  return [
    ...out.map(({ text, box }) => `outside: ${text} ${JSON.stringify(box)}`),
    ...over.map((pair) => `overlap: ${pair}`),
  ];
}

function isOver(a: Box, b: Box): boolean {
  return (
    a.left < b.right - HAIR_MM && b.left < a.right - HAIR_MM && a.top < b.bottom - HAIR_MM && b.top < a.bottom - HAIR_MM
  );
}

export function expectNoFaults(pages: readonly Page[]): void {
  for (const [at, page] of pages.entries()) expect(faultsOf(page), `page ${at + 1}`).toEqual([]);
}
