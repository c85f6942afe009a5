/** The papers that pages are made for, and how much of each a page uses. */

import type { PaperName } from '../../bridge/page-messages.ts';

export interface Paper {
  readonly widthMm: number;
  readonly heightMm: number;
}

export const PAPERS: Readonly<Record<PaperName, Paper>> = {
  /** 8 1/2 by 11 in. */
  letter: { widthMm: 215.9, heightMm: 279.4 },
  a4: { widthMm: 210, heightMm: 297 },
};

/** Left free on all sides: what common printers cannot reach, with room to spare. */
export const MARGIN_MM = 12;

/** Width of the part that is printed on, mm. */
export function printedWidthMm({ widthMm }: Paper): number {
  return widthMm - 2 * MARGIN_MM;
}
