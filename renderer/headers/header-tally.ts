/** How the primaries of a header stand, counted: what a list says of it. */

import type { MatchReport, Verdict } from '../../core/index.ts';
import { verdictMark } from '../ui/words/verdict-words.ts';

const VERDICTS: readonly Verdict[] = ['short', 'long', 'inBand'];

/** What is said of a count stays together where a line is broken. */
const SPACE = '\u00a0';

/** `◀ 1 short, ● 2 OK, 1 to go`; empty where nothing can be said of any primary. */
export function tallyWords(report: MatchReport): string {
  const judged = VERDICTS.map((verdict) => {
    const count = report.primaries.filter((match) => match.verdict === verdict).length;
    const { mark, word } = verdictMark(verdict);
    return count === 0 ? null : [mark, count, word].join(SPACE);
  });
  const toGo = report.primaries.filter(({ standing }) => standing === 'building').length;
  return [...judged, toGo === 0 ? null : [toGo, 'to', 'go'].join(SPACE)].filter((words) => words !== null).join(', ');
}
