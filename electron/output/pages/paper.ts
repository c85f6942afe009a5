/** The papers that pages are made for, and how much of each a page uses. */

import type { PaperName } from '../../bridge/page-messages.ts';

export interface Paper {
  readonly widthMm: number;
  readonly heightMm: number;
}

export const PAPERS: Readonly<Record<PaperName, Paper>> = {
  letter: { widthMm: 8.5 * 25.4, heightMm: 11 * 25.4 },
  a4: { widthMm: 210, heightMm: 297 },
};

/** Left free on all sides: what common printers cannot reach, with room to spare. */
export const MARGIN_MM = 12;

/** Width of the part that is printed on, mm. */
export function printedWidthMm({ widthMm }: Paper): number {
  return widthMm - 2 * MARGIN_MM;
}
