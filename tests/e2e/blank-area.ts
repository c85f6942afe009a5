/** The largest rectangle of the window in which nothing stands. */

import type { Page } from 'playwright-core';

export interface BlankArea {
  /** Of the window's area, 0 to 1. */
  readonly share: number;
  readonly xPx: number;
  readonly yPx: number;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Side of the squares that the window is looked at in: a blank strip narrower than this is no blank area. */
const CELL_PX = 8;

/** For each square of the window, row by row, whether text, a control, a line or a picture stands in it. */
async function takenSquares(page: Page): Promise<readonly (readonly boolean[])[]> {
  return await page.evaluate((cell) => {
    const [columns, rows] = [Math.ceil(innerWidth / cell), Math.ceil(innerHeight / cell)];
    const taken = Array.from({ length: rows }, () => Array.from({ length: columns }, () => false));
    const take = ({ left, top, right, bottom }: DOMRect) => {
      for (let row = Math.max(0, Math.floor(top / cell)); row < Math.min(rows, bottom / cell); row += 1)
        for (let column = Math.max(0, Math.floor(left / cell)); column < Math.min(columns, right / cell); column += 1)
          (taken[row] as boolean[])[column] = true;
    };
    /** Only what the frames around it let be seen. */
    const clipped = (box: DOMRect, element: Element) => {
      let { left, top, right, bottom } = box;
      for (let frame = element.parentElement; frame !== null; frame = frame.parentElement) {
        if (getComputedStyle(frame).overflow === 'visible') continue;
        const edge = frame.getBoundingClientRect();
        [left, top] = [Math.max(left, edge.left), Math.max(top, edge.top)];
        [right, bottom] = [Math.min(right, edge.right), Math.min(bottom, edge.bottom)];
      }
      return new DOMRect(left, top, Math.max(0, right - left), Math.max(0, bottom - top));
    };
    const isShown = (element: Element) => element.checkVisibility({ checkOpacity: true, visibilityProperty: true });
    for (const element of document.querySelectorAll('button, input, select, textarea, canvas, svg, img, td, th, hr')) {
      if (isShown(element)) take(clipped(element.getBoundingClientRect(), element));
    }
    const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    const range = document.createRange();
    for (let text = texts.nextNode(); text !== null; text = texts.nextNode()) {
      const parent = text.parentElement;
      if (parent === null || text.textContent?.trim() === '' || !isShown(parent)) continue;
      range.selectNodeContents(text);
      for (const box of range.getClientRects()) take(clipped(box, parent));
    }
    return taken;
  }, CELL_PX);
}

/** The largest rectangle of free squares, by the heights of free columns above each row. */
export async function largestBlank(page: Page): Promise<BlankArea> {
  const taken = await takenSquares(page);
  const columns = taken[0]?.length ?? 0;
  const heights = Array.from({ length: columns }, () => 0);
  let best = { squares: 0, column: 0, row: 0, wide: 0, high: 0 };
  for (const [row, squares] of taken.entries()) {
    for (let column = 0; column < columns; column += 1)
      heights[column] = squares[column] === true ? 0 : (heights[column] ?? 0) + 1;
    for (let from = 0; from < columns; from += 1) {
      let high = Number.POSITIVE_INFINITY;
      for (let to = from; to < columns && high > 0; to += 1) {
        high = Math.min(high, heights[to] ?? 0);
        const wide = to - from + 1;
        if (wide * high > best.squares) best = { squares: wide * high, column: from, row: row - high + 1, wide, high };
      }
    }
  }
  return {
    share: best.squares / (columns * taken.length),
    xPx: best.column * CELL_PX,
    yPx: best.row * CELL_PX,
    widthPx: best.wide * CELL_PX,
    heightPx: best.high * CELL_PX,
  };
}
