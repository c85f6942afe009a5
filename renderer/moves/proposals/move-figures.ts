/** The figures of a move in words: what comes out, and what it costs. */

import {
  BAND_SLACK_MM,
  formatAngle,
  formatDeviation,
  formatLength,
  type Header,
  type LengthStyle,
  type Move,
  mmOf,
  type Standing,
  type StockNeed,
  type Verdict,
} from '../../../core/index.ts';
import { closureWords } from '../../ui/words/closure-words.ts';
import { countOf } from '../../ui/words/spoken.ts';
import { verdictMark } from '../../ui/words/verdict-words.ts';
import type { ProposalFigure } from './proposal.ts';

/** Less tube than this is none: it is what rounding leaves. */
const LEAST_ADDED_MM = 0.05;

interface Context {
  readonly header: Header;
  readonly before: Standing;
}

/** In order: length, verdict, bends added, joints, cuts, tube, end, clearance, shelf. */
export function moveFigures(move: Move, { header, before }: Context): readonly ProposalFigure[] {
  const style = header.settings.display;
  const verdict = verdictAfter(move, header);
  return [
    { text: formatLength(move.lengthMm, style) },
    { text: `${formatDeviation(move.deviationMm, style)} ${verdictMark(verdict).word}`, verdict },
    ...bendFigures(move.cost.bendsAdded),
    { text: jointWords(move.cost.jointsMade) },
    ...costFigures(move.cost.newCuts, move.cost.tubeAddedMm, style),
    ...endFigures(move, before, style),
    ...clearanceFigures(move, style),
    ...stockFigures(move.cost.stockNeeded, style),
  ];
}

export function jointWords(count: number): string {
  return count === 0 ? 'no joint to make' : `${countOf(count, 'joint')} to make`;
}

export function bendFigures(count: number): readonly ProposalFigure[] {
  return count === 0 ? [] : [{ text: `${countOf(count, 'bend')} added` }];
}

export function costFigures(newCuts: number, tubeAddedMm: number, style: LengthStyle): readonly ProposalFigure[] {
  const isAdded = tubeAddedMm > LEAST_ADDED_MM;
  return [
    { text: newCuts === 0 ? 'no cut' : countOf(newCuts, 'cut') },
    { text: isAdded ? `${formatLength(tubeAddedMm, style)} of tube added` : 'no tube added' },
  ];
}

/** The band stands about the target that the deviation is from. */
function verdictAfter({ deviationMm }: Move, { settings }: Header): Verdict {
  if (deviationMm < -mmOf(settings.tolerance.minus) - BAND_SLACK_MM) return 'short';
  return deviationMm > mmOf(settings.tolerance.plus) + BAND_SLACK_MM ? 'long' : 'inBand';
}

function endFigures(move: Move, before: Standing, style: LengthStyle): readonly ProposalFigure[] {
  const { closureAfter, endShiftAtMostMm } = move;
  if (closureAfter === null) {
    return endShiftAtMostMm === null ? [] : [{ text: `end shifts ${formatLength(endShiftAtMostMm, style)} at most` }];
  }
  if (before.endReference === 'inlet') return [{ text: closureWords(closureAfter, style) }];
  const tiltDeg = Math.round(closureAfter.tiltDeg * 10) / 10;
  return [{ text: `end shifts ${formatLength(closureAfter.gapMm, style)}, turns ${formatAngle(tiltDeg)}` }];
}

function clearanceFigures(
  { clearanceBeforeMm, clearanceAfterMm }: Move,
  style: LengthStyle,
): readonly ProposalFigure[] {
  if (clearanceAfterMm === null) return [];
  const after = gapText(clearanceAfterMm, style);
  const now = clearanceBeforeMm === null ? after : gapText(clearanceBeforeMm, style);
  return [{ text: `least clearance ${after}${now === after ? '' : `, now ${now}`}` }];
}

/** Two tubes that run into each other have a gap below zero. */
function gapText(mm: number, style: LengthStyle): string {
  return mm < 0 ? `${formatLength(-mm, style)} inside` : formatLength(mm, style);
}

function stockFigures(needs: readonly StockNeed[], style: LengthStyle): readonly ProposalFigure[] {
  return needs.map((need) => {
    if (need.kind === 'straight') {
      return {
        text: `${formatLength(need.lengthMm, style)} of straight ${need.isOnShelf ? 'on shelf' : '✕ not on shelf'}`,
      };
    }
    const bend = `bend ${formatAngle(need.angleDeg)} at ${formatLength(mmOf(need.clr), style)} CLR`;
    return { text: `${bend} ${need.onShelf === 'onShelf' ? 'on shelf' : '✕ not on shelf'}` };
  });
}
