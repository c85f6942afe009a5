/** The rule by which a printed page is checked: 100 mm and 4 in, with what to do. */

import type { PageMark } from '../../bridge/page-messages.ts';
import { line, type Point, words } from './marks.ts';

/** With the room above it. */
export const RULE_HEIGHT_MM = 20;
const ABOVE_MM = 3;
const RULE_TEXT_MM = 2.8;

/** At the left, from this height on; 102 mm wide at least. */
export function trueSizeRule([leftMm, aboveMm]: Point): readonly PageMark[] {
  const topMm = aboveMm + ABOVE_MM;
  return [
    words('Print at 100 %, not fitted to the page. Measure both rules before you use it.', [leftMm, topMm + 3], {
      sizeMm: RULE_TEXT_MM,
      isBold: true,
    }),
    ...rule([leftMm, topMm + 8], { lengthMm: 100, parts: 10, name: '100 mm' }),
    ...rule([leftMm, topMm + 14], { lengthMm: 4 * 25.4, parts: 4, name: '4 in' }),
  ];
}

function rule(
  [x, y]: Point,
  { lengthMm, parts, name }: { readonly lengthMm: number; readonly parts: number; readonly name: string },
): readonly PageMark[] {
  const ticks = Array.from({ length: parts + 1 }, (_, part) => {
    const at = x + (lengthMm * part) / parts;
    return line([
      [at, y - (part === 0 || part === parts ? 3 : 1.5)],
      [at, y],
    ]);
  });
  const along = line([
    [x, y],
    [x + lengthMm, y],
  ]);
  return [along, ...ticks, words(name, [x + lengthMm + 2, y], { sizeMm: RULE_TEXT_MM })];
}
