/** Shows a size that somebody cuts to: finer than the display where the display would put it off. */

import { finenessMm, formatLengthBare } from './format-length.ts';
import type { LengthStyle } from './length-style.ts';
import { roundHalfUp } from './rounded-text.ts';

/** A figure off by less than this cuts the same: about a tenth of what a saw's blade and a scribed line leave open. */
const CUT_SLACK_MM = 0.05;

interface CutFigure {
  /** Without its unit. */
  readonly text: string;
  /**
   * `shown`: as fine as the display. `finer`: the display rounds it too far off, so it is shown finer. `rounded`: no figure
   * of this kind has it, and the text is the nearest.
   */
  readonly fineness: 'shown' | 'finer' | 'rounded';
}

/**
 * The figure to cut by for a length of `mm`: in the display's own fineness if that is within 0.05 mm of it, else in the next
 * finer one that is (to 1/64 in, four places of an inch, two of a millimetre), else rounded to the finest.
 */
export function formatCut(mm: number, style: LengthStyle): CutFigure {
  const fineness = finerThan(style);
  const fits = fineness.find((candidate) => Math.abs(shownMm(mm, candidate) - mm) <= CUT_SLACK_MM);
  if (fits === undefined) return { text: formatLengthBare(mm, fineness.at(-1) ?? style), fineness: 'rounded' };
  return { text: formatLengthBare(mm, fits), fineness: fits === style ? 'shown' : 'finer' };
}

/** The style and all finer ones of its kind, coarsest first. */
function finerThan(style: LengthStyle): readonly LengthStyle[] {
  const finer = FINER_STYLES.filter(
    (candidate) => candidate.kind === style.kind && finenessMm(candidate) < finenessMm(style),
  );
  return [style, ...finer];
}

const FINER_STYLES: readonly LengthStyle[] = [
  { kind: 'fraction', per: 16 },
  { kind: 'fraction', per: 32 },
  { kind: 'fraction', per: 64 },
  { kind: 'decimalInch', places: 3 },
  { kind: 'decimalInch', places: 4 },
  { kind: 'mm', places: 1 },
  { kind: 'mm', places: 2 },
];

/** The length that the figure in this style says. */
function shownMm(mm: number, style: LengthStyle): number {
  const step = finenessMm(style);
  return Math.sign(mm) * roundHalfUp(Math.abs(mm) / step) * step;
}
