/** Chosen values as changes that can be said, marked and made. */

import type { Bend, PieCutBend, Piece } from '../../header/header.ts';
import { wrapDeg } from '../../path/vector.ts';
import type { MoveChange } from '../move.ts';
import type { MoveProblem } from '../problem/move-problem.ts';
import type { Setting } from '../problem/setting.ts';

/** The changes in the order of the tube, as data for sentences and marks. */
export function changesOf({ pieces }: MoveProblem, settings: readonly Setting[]): readonly MoveChange[] {
  // Where a bend comes out or in, the clocking of the one after it is said with it.
  const said = new Set<Setting>();
  for (const { variable } of settings) {
    if (variable.kind !== 'newAngle' && variable.kind !== 'bendOut') continue;
    const clocking = clockingAfter(pieces, variable.pieceIndex + (variable.kind === 'bendOut' ? 1 : 0), settings);
    if (clocking !== null) said.add(clocking);
  }
  return settings.flatMap((setting) => {
    const change = said.has(setting) ? null : changeOf(pieces, setting, settings);
    return change === null ? [] : [change];
  });
}

/** Index of the first bend from piece `from` on; -1 when there is none. */
function bendFrom(pieces: readonly Piece[], from: number): number {
  return pieces.findIndex(({ kind }, index) => index >= from && kind !== 'straight');
}

/** The re-clocking of the first bend from piece `from` on, if it is among the settings. */
function clockingAfter(pieces: readonly Piece[], from: number, settings: readonly Setting[]): Setting | null {
  const at = bendFrom(pieces, from);
  return settings.find(({ variable }) => variable.kind === 'clocking' && variable.pieceIndex === at) ?? null;
}

/** What the clocking of the first bend from piece `from` on reads, with `moreDeg` on top; null when there is none. */
function clockingDegAfter(
  pieces: readonly Piece[],
  from: number,
  { settings, moreDeg }: { readonly settings: readonly Setting[]; readonly moreDeg: number },
): number | null {
  const bend = pieces[bendFrom(pieces, from)];
  if (bend === undefined || bend.kind === 'straight') return null;
  const deg = clockingAfter(pieces, from, settings)?.angleDeg ?? bend.clockingDeg ?? 0;
  return wrapDeg(Number((deg + moreDeg).toFixed(6)));
}

function changeOf(pieces: readonly Piece[], setting: Setting, settings: readonly Setting[]): MoveChange | null {
  const { variable, length, angleDeg } = setting;
  const { kind, pieceIndex } = variable;
  const piece = pieces[pieceIndex];
  if (kind === 'newClocking') return null;
  if (kind === 'newAngle') return bendInOf(pieces, setting, settings);
  if (kind === 'letIn') return length === null ? null : { kind, joint: pieceIndex, length };
  if (piece === undefined) return null;
  if (piece.kind === 'straight') {
    if (kind === 'takeOut') return { kind, pieceIndex, from: piece.length };
    return length === null ? null : { kind: 'length', pieceIndex, from: piece.length, to: length };
  }
  if (kind === 'bendOut') return bendOutOf(pieces, piece, { pieceIndex, settings });
  if (angleDeg === null) return null;
  if (kind === 'clocking') return { kind, pieceIndex, fromDeg: piece.clockingDeg ?? 0, toDeg: angleDeg };
  const angles = { pieceIndex, fromDeg: piece.angleDeg, toDeg: angleDeg };
  if (kind === 'angle') return { kind, ...angles };
  if (kind === 'pies') return piece.kind === 'pieCut' ? { kind, ...angles, ...piesOf(piece, angleDeg) } : null;
  return variable.clr === null ? null : { kind: 'swap', ...angles, fromClr: piece.clr, toClr: variable.clr };
}

function piesOf({ pies, angleDeg }: PieCutBend, toDeg: number) {
  return { fromPies: pies, toPies: Math.round((pies * toDeg) / angleDeg), toDeg: Number(toDeg.toFixed(6)) };
}

/** What comes after turns as it did, so the clocking of the bend that is gone goes to the next one. */
function bendOutOf(
  pieces: readonly Piece[],
  { clockingDeg, angleDeg }: Bend | PieCutBend,
  { pieceIndex, settings }: { readonly pieceIndex: number; readonly settings: readonly Setting[] },
): MoveChange {
  const nextClockingDeg = clockingDegAfter(pieces, pieceIndex + 1, { settings, moreDeg: clockingDeg ?? 0 });
  return { kind: 'bendOut', pieceIndex, angleDeg, nextClockingDeg };
}

function bendInOf(
  pieces: readonly Piece[],
  { variable: { pieceIndex: joint, clr }, angleDeg }: Setting,
  settings: readonly Setting[],
): MoveChange | null {
  if (clr === null || angleDeg === null) return null;
  const clocking = settings.find(
    ({ variable: { kind, pieceIndex } }) => kind === 'newClocking' && pieceIndex === joint,
  );
  const nextClockingDeg = clockingDegAfter(pieces, joint, { settings, moreDeg: 0 });
  return { kind: 'bendIn', joint, clr, angleDeg, clockingDeg: wrapDeg(clocking?.angleDeg ?? 0), nextClockingDeg };
}
