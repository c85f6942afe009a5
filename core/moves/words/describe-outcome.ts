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
  if (endReference === 'none') return `Where the end lies is not known, so moves are on length alone.${cause}`;
  if (closure !== null && !isClosed) {
    const miss = `${formatLength(closure.gapMm, style)} and ${formatAngle(roundedTo(closure.tiltDeg, 1))}`;
    return `The end misses its inlet by ${miss}: until that is mended the length says little. Moves mend both.`;
  }
  return unknown === null ? null : `Moves keep the end where it is now.${cause}`;
}

export function describeNoMoves(reason: NoMoveReason, style: LengthStyle): string {
  switch (reason.kind) {
    case 'noSuchPrimary':
      return 'The primary named is not in this header: choose one that is.';
    case 'headerFinished':
      return 'The header is finished and frozen: make a copy to change it.';
    case 'noPieces':
      return 'There are no pieces yet: enter what is tacked so far.';
    case 'noTarget':
      return 'There is no target yet: enter a longer primary, or type a length to match to.';
    case 'nothingToDo':
      return 'This primary is in the band and ends where it should.';
    case 'impossiblePiece':
      return describePathProblem(reason.problem);
    case 'allHeld':
      return 'Every piece is locked or welded.';
    case 'allInLine':
      return 'There is no bend in this tube: straight between two fixed ends, it has one length only.';
    case 'tooManyJoints':
      return `Every move makes more joints than the ${reason.allowed} allowed; the least makes ${reason.needed}.`;
    case 'tooTight':
      return `Every move comes nearer than ${formatLength(reason.keptMm, style)} to something; the best leaves ${formatLength(reason.bestMm, style)}.`;
    case 'rounding':
      return 'A move exists on paper, but not in lengths that a saw can cut: allow a larger gap at the collector, or more slip.';
    case 'outOfReach':
      return 'Nothing that may be touched brings this primary into the band with both its ends where they are.';
    case 'notThrough':
      return 'Nothing was found so far: look on, or let more be touched.';
    default:
      return assertNever(reason);
  }
}

/** "The nearest came to 3.2 mm of the inlet, tilted 0.4°, at 34 5/8 in." */
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
