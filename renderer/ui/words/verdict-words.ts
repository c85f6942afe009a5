/** How a primary stands, in word and mark, and the sentence that sums up the whole header. */

import {
  assertNever,
  type Building,
  finerStyle,
  formatDeviation,
  formatLength,
  isShownAsZero,
  type LengthStyle,
  type MatchReport,
  type PrimaryMatch,
  type Verdict,
} from '../../../core/index.ts';
import { countOf } from './spoken.ts';

/** Side, shape and word say the same as the colour. */
export function verdictMark(verdict: Verdict): { readonly mark: string; readonly word: string } {
  switch (verdict) {
    case 'short':
      return { mark: '◀', word: 'short' };
    case 'inBand':
      return { mark: '●', word: 'OK' };
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

/** `3/16" short`, "OK", `to go 3 5/8"`, "sets the length", "no pieces yet": how a primary stands, in a few words. */
export function verdictWords(match: PrimaryMatch, style: LengthStyle): string {
  const { standing, verdict, deviationMm } = match;
  switch (standing) {
    case 'empty':
      return 'no pieces yet';
    case 'noTarget':
      return 'no target yet';
    case 'setsLength':
      return match.building === null ? 'sets the length' : 'sets the length, still being built';
    case 'building':
    case 'waiting':
      return toGoWords(deviationMm ?? 0, style);
    case 'judged':
      if (verdict === null || verdict === 'inBand') return verdictMark('inBand').word;
      return `${formatLength(Math.abs(deviationMm ?? 0), styleOf(match, style))} ${verdictMark(verdict).word}`;
    default:
      return assertNever(standing);
  }
}

/** Finer where rounding would show the band's edge itself, as if 1/8" were out of a band of 1/8". */
function styleOf({ outsideMm }: PrimaryMatch, style: LengthStyle): LengthStyle {
  return isShownAsZero(outsideMm, style) ? finerStyle(style) : style;
}

/** `to go 3 5/8"`, `13 13/16" over`, or "at target" for what is shown as neither: of what has no verdict yet. */
function toGoWords(deviationMm: number, style: LengthStyle): string {
  if (isShownAsZero(deviationMm, style)) return 'at target';
  const figure = formatLength(Math.abs(deviationMm), style);
  return deviationMm < 0 ? `to go ${figure}` : `${figure} over`;
}

/** Why a primary is not judged: `still being built: end 3 5/8" from its inlet`. */
export function buildingWords(building: Building, style: LengthStyle): string {
  switch (building.kind) {
    case 'openEnd':
      return `still being built: end ${formatLength(building.missMm, style)} from its inlet`;
    case 'farShort':
      return 'still being built: more than a tenth to go';
    case 'planned':
      return `still being built: ${countOf(building.pieces, 'piece')} planned`;
    default:
      return assertNever(building);
  }
}

/** `3/16" short`, `OK, −1/16"`: for the end of a row, where the figure of what is OK is wanted as well. */
export function rowWords(match: PrimaryMatch, style: LengthStyle): string {
  const { deviationMm, verdict } = match;
  if (verdict !== 'inBand' || deviationMm === null || isShownAsZero(deviationMm, style))
    return verdictWords(match, style);
  return `${verdictWords(match, style)}, ${signedLength(deviationMm, style)}`;
}

/** `+1/16"`: a deviation with sign and unit. */
export function signedLength(mm: number, style: LengthStyle): string {
  const sign = formatDeviation(mm, style).startsWith('+') ? '+' : '';
  return `${sign}${formatLength(mm, style)}`;
}

/** `±1/8"` for a band that is as wide on both sides, else `−1/16" +1/8"`. */
export function bandWords(minusMm: number, plusMm: number, style: LengthStyle): string {
  if (minusMm === plusMm) return `±${formatLength(plusMm, style)}`;
  return `${signedLength(-minusMm, style)} ${signedLength(plusMm, style)}`;
}

/** ` Spread 1/4" about a mean of 35 1/8".`; empty for fewer than two that count. */
function spreadWords({ spreadMm, meanMm }: MatchReport, style: LengthStyle): string {
  if (spreadMm === null || meanMm === null) return '';
  return ` Spread ${formatLength(spreadMm, style)} about a mean of ${formatLength(meanMm, style)}.`;
}

/** The board in a sentence or two, made from its figures. */
export function captionSentence(report: MatchReport, band: string, style: LengthStyle): string {
  const judged = report.primaries.filter(({ verdict }) => verdict !== null);
  const worst = judged.find(({ primaryId }) => primaryId === report.worstPrimaryId);
  if (worst === undefined) return noneJudged(report);
  const built = report.primaries.filter(({ building }) => building !== null).length;
  const rest = `${built === 0 ? '' : ` ${built} still being built.`}${spreadWords(report, style)}`;
  const within = judged.filter(({ verdict }) => verdict === 'inBand').length;
  if (within === judged.length) {
    const all = judged.length === 1 ? `${primaryTitle(worst.name)} is` : `All ${judged.length} judged are`;
    return `${all} within ${band}.${rest}`;
  }
  const rank = judged.length === 1 ? '' : `, the worst of ${judged.length}`;
  return `${primaryTitle(worst.name)} is ${verdictWords(worst, style)}${rank}; ${within} of ${judged.length} within ${band}.${rest}`;
}

function noneJudged({ primaries, targetMm, targetPrimaryId, isTargetBuilding }: MatchReport): string {
  if (targetMm === null) return 'No primary has a length to compare yet.';
  const setter = primaries.find(({ primaryId }) => primaryId === targetPrimaryId);
  const built = primaries.filter(({ standing }) => standing === 'building').length;
  if (setter !== undefined && isTargetBuilding) {
    return `${primaryTitle(setter.name)} sets the length and is still being built, so none is judged yet.`;
  }
  if (setter !== undefined) {
    const others = built === 0 ? 'there is no other to compare yet' : `${built} still being built`;
    return `${primaryTitle(setter.name)} sets the length; ${others}.`;
  }
  return built === 0 ? 'No primary has pieces yet.' : `${built} still being built, so none is judged yet.`;
}
