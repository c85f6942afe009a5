/** Says a move as a fabricator would say it across the bench. */

import { type Header, type Piece, tubeOf } from '../../header/header.ts';
import { assertNever } from '../../result.ts';
import { roundedTo } from '../../units/angle.ts';
import { formatAngle } from '../../units/format-angle.ts';
import { formatCut } from '../../units/format-cut.ts';
import { formatLength, withUnit } from '../../units/format-length.ts';
import { type Length, mmOf } from '../../units/length.ts';
import type { LengthStyle } from '../../units/length-style.ts';
import type { Move, MoveChange } from '../move.ts';

interface Speaker {
  readonly pieces: readonly Piece[];
  readonly display: LengthStyle;
  readonly odMm: number;
}

/**
 * The move in one sentence without a full stop: "Lengthen straight 7 by 9.5 mm, a new one of 49.5 mm; shorten straight 9 by 9.5 mm to
 * 20.5 mm". Pieces go by their numbers as the grid of pieces shows them, before the move; lengths are in the header's display
 * unit, and finer where the display would round what has to be cut. `header` is the header before the move.
 */
export function describeMove(move: Move, header: Header): string {
  const primary = header.primaries.find(({ id }) => id === move.primaryId);
  const { od } = primary === undefined ? header.settings.tube : tubeOf(header, primary);
  const speaker = { pieces: primary?.pieces ?? [], display: header.settings.display, odMm: mmOf(od) };
  const said = capital(move.changes.map((change) => changeWords(change, speaker)).join('; '));
  if (move.endShiftAtMostMm === null) return said;
  return `${said}; the end shifts by ${formatLength(move.endShiftAtMostMm, speaker.display)} at most`;
}

function changeWords(change: MoveChange, speaker: Speaker): string {
  switch (change.kind) {
    case 'length':
      return lengthWords(change, speaker);
    case 'takeOut':
      return `take out straight ${change.pieceIndex + 1}, ${cutFigure(change.from, speaker)}`;
    case 'letIn':
      return letInWords(change, speaker);
    case 'clocking':
      return clockingWords(change, speaker);
    case 'angle':
      return angleWords(change, speaker);
    case 'swap':
      return swapWords(change, speaker);
    case 'pies':
      return piesWords(change, speaker);
    case 'bendOut':
      return bendOutWords(change, speaker);
    case 'bendIn':
      return bendInWords(change, speaker);
    case 'bendPair':
      return pairWords(change, speaker);
    case 'kick':
      return kickWords(change, speaker);
    default:
      return assertNever(change);
  }
}

type ChangeOf<Kind extends MoveChange['kind']> = Extract<MoveChange, { readonly kind: Kind }>;

function lengthWords({ pieceIndex, from, to }: ChangeOf<'length'>, speaker: Speaker): string {
  const byMm = mmOf(to) - mmOf(from);
  const verb = byMm > 0 ? 'lengthen' : 'shorten';
  const said = `${verb} straight ${pieceIndex + 1} by ${cutFigureMm(Math.abs(byMm), speaker)}`;
  const isReplaced = byMm > 0 && speaker.pieces[pieceIndex]?.state !== 'planned';
  return isReplaced ? `${said}, a new one of ${cutFigure(to, speaker)}` : `${said} to ${cutFigure(to, speaker)}`;
}

/** Beside a straight it makes that one longer; what is no longer than the tube is wide is a ring. */
function letInWords({ joint, length }: ChangeOf<'letIn'>, speaker: Speaker): string {
  const { pieces, odMm } = speaker;
  const isBeside = (index: number) => pieces[index]?.kind === 'straight';
  const of = cutFigure(length, speaker);
  const what = mmOf(length) <= odMm ? `a ring of ${of}` : `a piece of ${of}`;
  if (isBeside(joint - 1)) return `lengthen straight ${joint} by ${what} let in after it`;
  if (isBeside(joint)) return `lengthen straight ${joint + 1} by ${what} let in ahead of it`;
  return `add a straight of ${of} ${whichJoint(joint, speaker)}`;
}

/** What is welded to the bend turns with it. */
function clockingWords({ pieceIndex, fromDeg, toDeg }: ChangeOf<'clocking'>, { pieces }: Speaker): string {
  const angles = `from ${formatAngle(fromDeg)} to ${formatAngle(toDeg)}`;
  return pieces[pieceIndex]?.state === 'welded'
    ? `turn bend ${pieceIndex + 1} and what is welded to it ${angles}`
    : `re-clock bend ${pieceIndex + 1} ${angles}`;
}

function angleWords({ pieceIndex, fromDeg, toDeg }: ChangeOf<'angle'>, { pieces }: Speaker): string {
  const [name, from, to] = [`bend ${pieceIndex + 1}`, formatAngle(fromDeg), formatAngle(toDeg)];
  if (pieces[pieceIndex]?.state === 'planned') return `plan ${name} at ${to}, not ${from}`;
  return toDeg < fromDeg ? `trim ${name} from ${from} to ${to}` : `replace ${name}, ${from}, by one of ${to}`;
}

function swapWords({ pieceIndex, fromClr, toClr, fromDeg, toDeg }: ChangeOf<'swap'>, { display }: Speaker): string {
  const bend = (deg: number, clr: Length) => `${formatAngle(deg)} at CLR ${formatLength(mmOf(clr), display)}`;
  return `swap bend ${pieceIndex + 1}, ${bend(fromDeg, fromClr)}, for ${bend(toDeg, toClr)}`;
}

/** Counted off at the mitres; what is left keeps its CLR. */
function piesWords({ pieceIndex, fromPies, toPies, fromDeg, toDeg }: ChangeOf<'pies'>, { pieces }: Speaker): string {
  const [name, off] = [`pie-cut bend ${pieceIndex + 1}`, fromPies - toPies];
  const toAngle = formatAngle(roundedTo(toDeg, 1));
  if (pieces[pieceIndex]?.state === 'planned') return `plan ${name} with ${countOfPies(toPies)}, ${toAngle}`;
  return `take ${countOfPies(off)} off ${name}, from ${formatAngle(roundedTo(fromDeg, 1))} to ${toAngle}`;
}

function countOfPies(pies: number): string {
  return pies === 1 ? '1 pie' : `${pies} pies`;
}

function bendOutWords({ pieceIndex, angleDeg, nextClockingDeg }: ChangeOf<'bendOut'>, speaker: Speaker): string {
  const said = `take out bend ${pieceIndex + 1}, ${formatAngle(roundedTo(angleDeg, 1))}`;
  return `${said}${thenClocked(pieceIndex + 1, nextClockingDeg, speaker)}`;
}

function bendInWords(change: ChangeOf<'bendIn'>, speaker: Speaker): string {
  const { joint, clr, angleDeg, clockingDeg, nextClockingDeg } = change;
  const bend = `a bend of ${formatAngle(angleDeg)}, CLR ${formatLength(mmOf(clr), speaker.display)}`;
  const place = `${whichJoint(joint, speaker)}, clocked ${formatAngle(clockingDeg)}`;
  return `add ${bend}, ${place}${thenClocked(joint, nextClockingDeg, speaker)}`;
}

/** The first bend from piece `from` on has another one before it now. */
function thenClocked(from: number, clockingDeg: number | null, { pieces }: Speaker): string {
  const next = pieces.findIndex(({ kind }, index) => index >= from && kind !== 'straight');
  return clockingDeg === null || next < 0 ? '' : `, bend ${next + 1} then clocked ${formatAngle(clockingDeg)}`;
}

function pairWords({ joint, clr, angleDeg, clockingDeg }: ChangeOf<'bendPair'>, speaker: Speaker): string {
  const bends = `two bends of ${formatAngle(angleDeg)}, CLR ${formatLength(mmOf(clr), speaker.display)}`;
  return `add ${bends}, ${whichJoint(joint, speaker)}, clocked ${formatAngle(clockingDeg)} and 180°`;
}

/** `kick straight 1: 27°/54°/27°, CLR 2 5/8", clocked 30°/180°/180°; cut the straight to 3" before and 2" after`. */
function kickWords(change: ChangeOf<'kick'>, speaker: Speaker): string {
  const { pieceIndex, clr, angleDeg, clockingDeg } = change;
  const angle = formatAngle(angleDeg);
  const bends = `${angle}/${formatAngle(2 * angleDeg)}/${angle}, CLR ${formatLength(mmOf(clr), speaker.display)}`;
  return `kick straight ${pieceIndex + 1}: ${bends}, clocked ${formatAngle(clockingDeg)}/180°/180°, ${leftWords(change, speaker)}`;
}

function leftWords({ before, after }: ChangeOf<'kick'>, speaker: Speaker): string {
  const part = (length: Length, side: string) =>
    mmOf(length) > 0 ? [`${cutFigure(length, speaker)} of it ${side}`] : [];
  const parts = [...part(before, 'before'), ...part(after, 'after')];
  return parts.length === 0 ? 'none of it left' : `leaving ${parts.join(' and ')}`;
}

function cutFigure(length: Length, speaker: Speaker): string {
  return cutFigureMm(mmOf(length), speaker);
}

/** As the grid of pieces shows what is cut, with its unit. */
function cutFigureMm(mm: number, { display }: Speaker): string {
  return withUnit(formatCut(mm, display).text, display);
}

function whichJoint(joint: number, { pieces }: Speaker): string {
  if (joint === 0) return 'at the port';
  return joint >= pieces.length ? 'at the collector' : `between pieces ${joint} and ${joint + 1}`;
}

function capital(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
}
