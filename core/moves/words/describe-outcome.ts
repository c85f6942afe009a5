/** Says how a primary stands, why there is no move, and what would have to be let go. */

import { describePathProblem } from '../../path/describe-path-problem.ts';
import { assertNever } from '../../result.ts';
import { roundedTo } from '../../units/angle.ts';
import { formatAngle } from '../../units/format-angle.ts';
import { formatLength } from '../../units/format-length.ts';
import type { LengthStyle } from '../../units/length-style.ts';
import type { NearestMiss, NoMoveReason, Standing, ToFree } from '../outcome.ts';

/** What must be said before any move: that the end is not where it should be, or not known. Null: nothing. */
export function describeStanding(
  { endReference, closure, isClosed, unknown }: Standing,
  style: LengthStyle,
): string | null {
  const cause = unknown === null ? '' : ` ${describePathProblem(unknown)}`;
  if (endReference === 'none') return `The end's place is not known, so moves change the length only.${cause}`;
  if (closure !== null && !isClosed) {
    const miss = `${formatLength(closure.gapMm, style)} and ${formatAngle(roundedTo(closure.tiltDeg, 1))}`;
    return `The end misses its inlet by ${miss}. Moves close it and bring the length right.`;
  }
  return unknown === null ? null : `Moves keep the end where it is now.${cause}`;
}

export function describeNoMoves(reason: NoMoveReason, style: LengthStyle): string {
  switch (reason.kind) {
    case 'noSuchPrimary':
      return 'The primary named is not in this header: choose one that is.';
    case 'headerFinished':
      return 'This header is finished. Duplicate it to change it.';
    case 'noPieces':
      return 'No pieces yet. Enter what is tacked so far.';
    case 'noTarget':
      return 'No target yet. Enter a longer primary, or type a target.';
    case 'nothingToDo':
      return 'This primary is OK. Nothing to change.';
    case 'impossiblePiece':
      return describePathProblem(reason.problem);
    case 'allHeld':
      return 'Every piece is locked or welded.';
    case 'allInLine':
      return 'This tube has no bend: between two fixed ends it has one length only.';
    case 'tooManyJoints':
      return `Every move makes more than ${reason.allowed} joints; the least makes ${reason.needed}.`;
    case 'tooTight':
      return `Every move leaves less than ${formatLength(reason.keptMm, style)} clearance; the best leaves ${formatLength(reason.bestMm, style)}.`;
    case 'rounding':
      return 'A move exists, but not in lengths that a saw can cut. Allow a larger closure gap, or more slip.';
    case 'outOfReach':
      return 'No change to the free pieces brings this primary to length with both ends in place.';
    case 'notThrough':
      return 'Nothing found so far. Search on, or unlock more pieces.';
    default:
      return assertNever(reason);
  }
}

/** `The nearest came to 3.2 mm of the inlet, tilted 0.4°, at 34 5/8".` */
export function describeNearest({ gapMm, tiltDeg, lengthMm }: NearestMiss, style: LengthStyle): string {
  const tilt = formatAngle(roundedTo(tiltDeg, 1));
  return `The nearest came within ${formatLength(gapMm, style)} of the inlet, tilted ${tilt}, at ${formatLength(lengthMm, style)}.`;
}

/** "Unlock piece 5 and break the tack between pieces 4 and 5, and there is a move." */
export function describeToFree({ lockedPieces, weldedPieces, weldedJoints, tackedJoints }: ToFree): string {
  const acts = [
    ...lockedPieces.map((index) => `unlock piece ${index + 1}`),
    ...weldedPieces.map((index) => `cut out piece ${index + 1}, which is welded`),
    ...weldedJoints.map((joint) => `cut the weld ${jointWords(joint)}`),
    ...tackedJoints.map((joint) => `break the tack ${jointWords(joint)}`),
  ];
  if (acts.length === 0) return '';
  const last = acts.at(-1) ?? '';
  const said = acts.length === 1 ? last : `${acts.slice(0, -1).join(', ')} and ${last}`;
  return `${said.charAt(0).toUpperCase()}${said.slice(1)}, and there is a move.`;
}

function jointWords(joint: number): string {
  return joint === 0 ? 'at the port' : `between pieces ${joint} and ${joint + 1}`;
}
