/** Letters that cannot be printed: on the pages a sign stands in their place, and they are named to whoever looks at them. */

import type { Page } from '../../bridge/page-messages.ts';
import type { Typeface } from './typeface.ts';

export interface DrawnPages {
  readonly pages: readonly Page[];
  /** Each once, in the order in which they come. */
  readonly missing: readonly string[];
}

export function printedPages(pages: readonly Page[], typeface: Typeface): DrawnPages {
  const missing = new Set<string>();
  const printed = pages.map((page) => ({
    ...page,
    marks: page.marks.map((mark) => {
      if (mark.kind === 'line') return mark;
      const { text, missing: letters } = typeface.printed(mark.text, mark.isBold);
      for (const letter of letters) missing.add(letter);
      return { ...mark, text };
    }),
  }));
  return { pages: printed, missing: [...missing] };
}
