/** What the entry line offers while it is typed in: the CLRs that lie on the shelf. */

import { type Length, type LengthUnit, typedText } from '../../../core/index.ts';

export interface Suggestion {
  /** The whole line as it becomes. */
  readonly text: string;
  /** What is offered, such as "r3". */
  readonly label: string;
}

/** The last `r` of a bend that is being typed, with what follows it. */
const CLR_BEGUN = /^(.*\b[bp][^;]*?)r([^;a-z]*)$/i;

/** Those of `clrs`, in their order, that fit the `r` that the line ends in; none elsewhere, nor where the line already ends in one of them. */
export function suggestClrs(text: string, clrs: readonly Length[], unit: LengthUnit): readonly Suggestion[] {
  const [, head, begun = ''] = CLR_BEGUN.exec(text) ?? [];
  if (head === undefined) return [];
  const typed = begun.trim();
  const offered = clrs.map((clr) => typedText(clr, unit)).filter((clr) => clr.startsWith(typed));
  return offered.includes(typed) ? [] : offered.map((clr) => ({ text: `${head}r${clr}`, label: `r${clr}` }));
}
