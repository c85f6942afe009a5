/** How a primary stands against the target, in word and mark. */

import { assertNever } from '../result.ts';
import { formatDeviation, formatLength, isShownAsZero } from '../units/format-length.ts';
import { finerStyle, type LengthStyle } from '../units/length-style.ts';
import type { Verdict } from './band.ts';
import type { PrimaryMatch } from './match-header.ts';

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
