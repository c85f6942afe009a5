/** A verdict in word and mark, and the sentence that sums up the whole header. */

import {
  assertNever,
  formatDeviation,
  formatLength,
  type LengthStyle,
  type MatchReport,
  type PrimaryMatch,
} from '../../../core/index.ts';

export type Verdict = NonNullable<PrimaryMatch['verdict']>;

/** Side, shape and word say the same as the colour. */
export function verdictMark(verdict: Verdict): { readonly mark: string; readonly word: string } {
  switch (verdict) {
    case 'short':
      return { mark: '◀', word: 'short' };
    case 'inBand':
      return { mark: '●', word: 'in band' };
    case 'long':
      return { mark: '▶', word: 'long' };
    default:
      return assertNever(verdict);
  }
}

/** "Primary 3" for a bare number, else the name as the shop wrote it. */
export function primaryTitle(name: string): string {
  return /^\d+$/.test(name) ? `Primary ${name}` : name;
}

/** "3/16 in short", "in band", "no pieces yet". */
export function verdictWords(match: PrimaryMatch, style: LengthStyle): string {
  if (match.pieceLengthsMm.length === 0) return 'no pieces yet';
  if (match.verdict === null || match.deviationMm === null) return 'no target';
  const { word } = verdictMark(match.verdict);
  if (match.verdict === 'inBand') return word;
  return `${formatLength(Math.abs(match.deviationMm), style)} ${word}`;
}

/** "−3/16 short", "+1/16 in band": the sign and the word, for the end of a row. Empty when there is no verdict. */
export function deviationWords(match: PrimaryMatch, style: LengthStyle): string {
  if (match.verdict === null || match.deviationMm === null) return '';
  return `${formatDeviation(match.deviationMm, style)} ${verdictMark(match.verdict).word}`;
}

/** Two words of a band are the same figure on both sides: "±1/8 in", else "−1/16 +1/8 in". */
export function bandWords(minusMm: number, plusMm: number, style: LengthStyle): string {
  if (minusMm === plusMm) return `±${formatLength(plusMm, style)}`;
  return `${formatDeviation(-minusMm, style)} ${formatDeviation(plusMm, style)}`;
}

/** " Spread 1/4 in about a mean of 35 1/8 in.": what the bracket and the ring under the chart show. */
function spreadWords({ spreadMm, meanMm }: MatchReport, style: LengthStyle): string {
  if (spreadMm === null || meanMm === null) return '';
  return ` Spread ${formatLength(spreadMm, style)} about a mean of ${formatLength(meanMm, style)}.`;
}

/** The chart in a sentence or two, made from its figures. */
export function captionSentence(report: MatchReport, band: string, style: LengthStyle): string {
  const judged = report.primaries.filter((match) => match.verdict !== null);
  const worst = judged.find((match) => match.primaryId === report.worstPrimaryId);
  if (judged.length === 0 || worst === undefined) return 'No primary has a length to compare yet.';
  const inBand = judged.filter((match) => match.verdict === 'inBand').length;
  const spread = judged.length < 2 ? '' : spreadWords(report, style);
  if (inBand === judged.length) {
    const all = judged.length === 1 ? 'The one primary with pieces is' : `All ${judged.length} primaries are`;
    return `${all} in the band of ${band}.${spread}`;
  }
  const rank = judged.length === 1 ? '' : `, the worst of ${judged.length}`;
  const counted = `${inBand} of ${judged.length} in the band of ${band}.`;
  return `${primaryTitle(worst.name)} is ${verdictWords(worst, style)}${rank}; ${counted}${spread}`;
}
