/** Says why there is no proposal, and which lengths there are. */

import { describePathProblem } from '../path/describe-path-problem.ts';
import { assertNever } from '../result.ts';
import { formatLength } from '../units/format-length.ts';
import type { LengthStyle } from '../units/length-style.ts';
import type { LengthRange, NoProposalReason } from './outcome.ts';

export function describeNoProposal(reason: NoProposalReason, style: LengthStyle): string {
  const shown = (mm: number) => formatLength(mm, style);
  switch (reason.kind) {
    case 'noSuchPrimary':
      return 'The primary named is not in this header: choose one that is.';
    case 'headerFinished':
      return 'This header is finished. Duplicate it to change it.';
    case 'endsUnknown':
      return describePathProblem(reason.problem);
    case 'samePlace':
      return 'Port and inlet are in the same place: nothing fits between them. Check where they are.';
    case 'allThere':
      return 'What is tacked ends in its inlet already. Nothing is missing.';
    case 'noClr':
      return 'The shelf has no bend of this tube. Put one on the shelf, or leave the shelf out.';
    case 'tooShort':
      return `${shown(reason.wantedMm)} is too short: the least with up to two bends of these CLRs is ${shown(reason.leastMm)}.`;
    case 'outOfReach':
      return `No tube of up to ${reason.mostBends === 1 ? '1 bend' : `${reason.mostBends} bends`} was found that ends in the inlet${reason.isLengthWanted ? ' at this length' : ''}.`;
    case 'tooTight':
      return `Every proposal leaves less than ${shown(reason.keptMm)} clearance; the best leaves ${shown(reason.bestMm)}.`;
    case 'rounding':
      return 'There are tubes that fit, but not in lengths and angles that can be sawn. Allow a larger closure gap, more slip, or a wider tolerance.';
    case 'notThrough':
      return 'Nothing found so far. Search on, or allow another length.';
    default:
      return assertNever(reason);
  }
}

/** `With two bends: 23 1/16" to 31", 34" and more.` Empty for no ranges. */
export function describeLengthRanges(
  ranges: readonly LengthRange[],
  style: LengthStyle,
  bends: 'two' | 'three' = 'two',
): string {
  if (ranges.length === 0) return '';
  const words = ranges.map(({ lowMm, highMm }) =>
    Number.isFinite(highMm)
      ? `${formatLength(lowMm, style)} to ${formatLength(highMm, style)}`
      : `${formatLength(lowMm, style)} and more`,
  );
  return `With ${bends} bends: ${words.join(', ')}.`;
}
