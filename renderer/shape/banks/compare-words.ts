/** What a comparison says, in words. */

import {
  assertNever,
  type Closure,
  explainsMiss,
  formatDeviation,
  formatSignedAngle,
  type JointTurn,
  type LengthStyle,
  type PieceDifference,
} from '../../../core/index.ts';
import { closureWords } from '../../ui/words/closure-words.ts';
import { primaryTitle } from '../../ui/words/verdict-words.ts';

/** "Piece 4: clocking +5°". */
export function differenceWords(difference: PieceDifference, style: LengthStyle): string {
  const { kind, by, indexInOther, indexInReference } = difference;
  const piece = `Piece ${(indexInOther ?? indexInReference ?? 0) + 1}`;
  switch (kind) {
    case 'kind':
      return `${piece}: another kind of piece`;
    case 'missing':
      return `${piece} of the reference is missing`;
    case 'extra':
      return `${piece} is extra`;
    case 'length':
      return `${piece}: length ${by === null ? 'differs' : formatDeviation(by, style)}`;
    case 'clr':
      return `${piece}: CLR ${by === null ? 'differs' : formatDeviation(by, style)}`;
    case 'angle':
      return `${piece}: angle ${by === null ? 'differs' : formatSignedAngle(by)}`;
    case 'clocking':
      return `${piece}: clocking ${by === null ? 'not recorded on one of them' : formatSignedAngle(by)}`;
    case 'pies':
      return `${piece}: ${by === null ? 'other' : Math.abs(by)} pies ${by !== null && by < 0 ? 'fewer' : 'more'}`;
    default:
      return assertNever(kind);
  }
}

/** The inlet of a comparison is where the reference would end. */
export function againstWords(words: string, referenceName: string): string {
  const place = `where ${primaryTitle(referenceName)} would end`;
  return words.replaceAll('in the inlet', place).replaceAll('the inlet', place);
}

/** Says how well one joint accounts for a miss, what to do about it, and where the primary ends then. */
export function turnWords(turn: JointTurn, before: Closure, style: LengthStyle): string {
  const lead = explainsMiss(turn, before) ? 'One joint explains it.' : 'No one joint explains it; this one helps most.';
  const act = `Re-clock piece ${turn.pieceIndex + 1} by ${formatSignedAngle(turn.turnDeg)}`;
  return `${lead} ${act}: the primary then ${closureWords(turn.closureAfter, style)}.`;
}
