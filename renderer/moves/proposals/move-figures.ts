/** The figures of a move in words: what comes out, and what it costs. */

import {
  formatAngle,
  formatGap,
  formatLength,
  type Header,
  isShownAsZero,
  type LengthStyle,
  type Move,
  mmOf,
  roundedTo,
  type Standing,
  type StockNeed,
  verdictOfDeviation,
} from '../../../core/index.ts';
import { closureWords } from '../../ui/words/closure-words.ts';
import { countOf } from '../../ui/words/spoken.ts';
import { signedLength, verdictMark } from '../../ui/words/verdict-words.ts';
import type { ProposalFigure } from './proposal.ts';

interface Context {
  readonly header: Header;
  readonly before: Standing;
}

/** In order: length, verdict, bends added, joints, cuts, tube, end, clearance, shelf. */
export function moveFigures(move: Move, { header, before }: Context): readonly ProposalFigure[] {
  const style = header.settings.display;
  // The band stands about the target that the deviation is from.
  const verdict = verdictOfDeviation(move.deviationMm, header.settings.tolerance);
  return [
    { text: formatLength(move.lengthMm, style) },
    { text: `${signedLength(move.deviationMm, style)} ${verdictMark(verdict).word}`, verdict },
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
  const isAdded = tubeAddedMm > 0 && !isShownAsZero(tubeAddedMm, style);
  return [
    { text: newCuts === 0 ? 'no cut' : countOf(newCuts, 'cut') },
    { text: isAdded ? `${formatLength(tubeAddedMm, style)} of tube added` : 'no tube added' },
  ];
}

function endFigures(move: Move, before: Standing, style: LengthStyle): readonly ProposalFigure[] {
  const { closureAfter, endShiftAtMostMm } = move;
  if (closureAfter === null) {
    return endShiftAtMostMm === null ? [] : [{ text: `end shifts ${formatLength(endShiftAtMostMm, style)} at most` }];
  }
  if (before.endReference === 'inlet') return [{ text: closureWords(closureAfter, style) }];
  const tiltDeg = roundedTo(closureAfter.tiltDeg, 1);
  return [{ text: `end shifts ${formatLength(closureAfter.gapMm, style)}, turns ${formatAngle(tiltDeg)}` }];
}

function clearanceFigures(
  { clearanceBeforeMm, clearanceAfterMm }: Move,
  style: LengthStyle,
): readonly ProposalFigure[] {
  if (clearanceAfterMm === null) return [];
  const after = formatGap(clearanceAfterMm, style);
  const now = clearanceBeforeMm === null ? after : formatGap(clearanceBeforeMm, style);
  return [{ text: now === after ? `clearance ${after}` : `clearance ${now} → ${after}` }];
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
