/** Says a move as a fabricator would say it across the bench. */

import type { Header, Piece } from '../../header/header.ts';
import { assertNever } from '../../result.ts';
import { formatAngle } from '../../units/format-angle.ts';
import { formatLength } from '../../units/format-length.ts';
import { type Length, mmOf } from '../../units/length.ts';
import type { LengthStyle } from '../../units/length-style.ts';
import { ordinalWord } from '../../units/ordinal.ts';
import type { Move, MoveChange } from '../move.ts';

interface Speaker {
  readonly pieces: readonly Piece[];
  readonly display: LengthStyle;
}

/**
 * The move in one sentence without a full stop, lengths in the header's display unit: "let 9.5 mm into the straight after the second
 * bend, take 9.5 mm out of the one after the last bend". `header` is the header before the move.
 */
export function describeMove(move: Move, header: Header): string {
  const pieces = header.primaries.find(({ id }) => id === move.primaryId)?.pieces ?? [];
  const speaker = { pieces, display: header.settings.display };
  const said = move.changes.map((change) => changeWords(change, speaker)).join(', ');
  if (move.endShiftAtMostMm === null) return said;
  return `${said}; the end will shift, by ${formatLength(move.endShiftAtMostMm, speaker.display)} at most`;
}

/** One change of a move in words; `describeMove` strings them together. */
export function describeMoveChange(change: MoveChange, header: Header, primaryId: string): string {
  const pieces = header.primaries.find(({ id }) => id === primaryId)?.pieces ?? [];
  return changeWords(change, { pieces, display: header.settings.display });
}

function changeWords(change: MoveChange, speaker: Speaker): string {
  const length = (value: Length) => formatLength(mmOf(value), speaker.display);
  switch (change.kind) {
    case 'length': {
      const byMm = mmOf(change.to) - mmOf(change.from);
      const by = formatLength(Math.abs(byMm), fineStyle(Math.abs(byMm), speaker.display));
      const where = whichStraight(change.pieceIndex, speaker);
      const then = `now ${length(change.from)}, then ${formatLength(mmOf(change.to), fineStyle(mmOf(change.to), speaker.display))}`;
      return `${byMm > 0 ? 'let' : 'take'} ${by} ${byMm > 0 ? 'into' : 'out of'} the straight ${where} (${then})`;
    }
    case 'takeOut':
      return `take out the straight ${whichStraight(change.pieceIndex, speaker)} (${length(change.from)})`;
    case 'letIn':
      return `let in a straight of ${formatLength(mmOf(change.length), fineStyle(mmOf(change.length), speaker.display))} ${whichJoint(change.joint, speaker)}`;
    case 'clocking':
      return `${turnWords(change.pieceIndex, speaker)} from ${formatAngle(change.fromDeg)} to ${formatAngle(change.toDeg)}`;
    case 'angle':
      return angleWords(change, speaker);
    case 'swap':
      return `put a bend of ${length(change.toClr)} CLR cut to ${formatAngle(change.toDeg)} in place of ${bendName(change.pieceIndex, speaker)} (${length(change.fromClr)}, ${formatAngle(change.fromDeg)})`;
    case 'bendPair':
    case 'kick':
      return insertWords(change, speaker);
    default:
      return assertNever(change);
  }
}

function turnWords(pieceIndex: number, speaker: Speaker): string {
  const name = bendName(pieceIndex, speaker);
  return speaker.pieces[pieceIndex]?.state === 'welded'
    ? `turn ${name}, with what is welded to it,`
    : `re-clock ${name}`;
}

function angleWords(change: Extract<MoveChange, { kind: 'angle' }>, speaker: Speaker): string {
  const name = bendName(change.pieceIndex, speaker);
  const isPlanned = speaker.pieces[change.pieceIndex]?.state === 'planned';
  const angles = `from ${formatAngle(change.fromDeg)} to ${formatAngle(change.toDeg)}`;
  if (isPlanned) return `make ${name} ${formatAngle(change.toDeg)} instead of ${formatAngle(change.fromDeg)}`;
  return change.toDeg < change.fromDeg
    ? `cut ${name} down ${angles}`
    : `replace ${name} by one of ${formatAngle(change.toDeg)} (now ${formatAngle(change.fromDeg)})`;
}

function insertWords(change: Extract<MoveChange, { kind: 'bendPair' | 'kick' }>, speaker: Speaker): string {
  const angle = formatAngle(change.angleDeg);
  const clr = formatLength(mmOf(change.clr), speaker.display);
  const clocking = formatAngle(change.clockingDeg);
  if (change.kind === 'bendPair') {
    return `let in two bends of ${angle} at ${clr} CLR ${whichJoint(change.joint, speaker)}, the first clocked ${clocking}, the second 180°`;
  }
  const parts = (length: Length, where: string) =>
    mmOf(length) > 0
      ? [`${formatLength(mmOf(length), fineStyle(mmOf(length), speaker.display))} of straight ${where}`]
      : [];
  const left = [...parts(change.before, 'before it'), ...parts(change.after, 'after it')].join(' and ');
  const where = whichStraight(change.pieceIndex, speaker);
  const bends = `bends of ${angle}, ${formatAngle(2 * change.angleDeg)} and ${angle} at ${clr} CLR`;
  const rest = left === '' ? 'with nothing of it left' : `leaving ${left}`;
  return `kick the straight ${where} out and back with ${bends}, the first clocked ${clocking}, the others 180°, ${rest}`;
}

/** The display style, or a finer one of the same unit where the display would round a figure that has to be cut. */
function fineStyle(mm: number, display: LengthStyle): LengthStyle {
  if (display.kind === 'fraction') {
    const parts = (mm / 25.4) * display.per;
    return Math.abs(parts - Math.round(parts)) < 1e-6 ? display : { kind: 'fraction', per: 64 };
  }
  const per = display.kind === 'mm' ? mm : mm / 25.4;
  const shown = per * 10 ** display.places;
  if (Math.abs(shown - Math.round(shown)) < 1e-6) return display;
  return display.kind === 'mm' ? { kind: 'mm', places: 2 } : { kind: 'decimalInch', places: 3 };
}

function bendsBefore(index: number, { pieces }: Speaker): number {
  return pieces.slice(0, index).filter(({ kind }) => kind !== 'straight').length;
}

function bendName(index: number, speaker: Speaker): string {
  return `the ${ordinalWord(bendsBefore(index, speaker) + 1)} bend`;
}

/** "after the second bend"; with the piece's number where two straights stand between the same bends. */
function whichStraight(index: number, speaker: Speaker): string {
  const { pieces } = speaker;
  const bends = bendsBefore(pieces.length, speaker);
  if (bends === 0) return pieces.length === 1 ? 'itself' : `that is piece ${index + 1}`;
  const hasTwin = pieces[index - 1]?.kind === 'straight' || pieces[index + 1]?.kind === 'straight';
  return `${afterBend(bendsBefore(index, speaker), bends)}${hasTwin ? `, piece ${index + 1},` : ''}`;
}

function afterBend(before: number, bends: number): string {
  if (before === 0) return 'before the first bend';
  return before === bends ? 'after the last bend' : `after the ${ordinalWord(before)} bend`;
}

function whichJoint(joint: number, speaker: Speaker): string {
  const { pieces } = speaker;
  if (joint === 0) return 'at the port';
  if (joint >= pieces.length) return 'at the collector';
  const before = bendsBefore(joint, speaker);
  if (pieces[joint - 1]?.kind !== 'straight' && pieces[joint]?.kind !== 'straight') {
    return `between the ${ordinalWord(before)} and the ${ordinalWord(before + 1)} bend`;
  }
  return `between pieces ${joint} and ${joint + 1}`;
}
