/** Everything that must hold of a move that is offered, checked from outside: lengths and ends anew, by three's matrices. */

import { applyEdit } from '../../../core/edits/apply-edit.ts';
import type { Header, Piece, Pose, Primary } from '../../../core/header/header.ts';
import { matchHeader } from '../../../core/length/match-header.ts';
import type { Move, MoveChange } from '../../../core/moves/move.ts';
import type { MoveOptions } from '../../../core/moves/question.ts';
import { mmOf } from '../../../core/units/length.ts';
import { centrelineMm, endByMatrices, frameIn, type MatrixFrame, poseMatrix } from '../../references/path-matrices.ts';
import { type Act, jointsByHand } from './joints-by-hand.ts';

/** What is wrong with the move; empty when all is well. */
export function faultsOf(header: Header, move: Move, options: MoveOptions): readonly string[] {
  const before = header.primaries.find(({ id }) => id === move.primaryId);
  const applied = applyEdit(header, move.edit);
  if (!applied.ok || before === undefined) return [`refused: ${JSON.stringify(applied)}`];
  const after = applied.value.header.primaries.find(({ id }) => id === move.primaryId);
  if (after === undefined) return ['the primary is gone'];
  const others = header.primaries.filter(({ id }) => id !== move.primaryId);
  const touched = others.filter((other) => !applied.value.header.primaries.includes(other));
  return [
    ...touched.map(({ id }) => `touches ${id}`),
    ...lengthFaults(applied.value.header, move),
    ...closureFaults(header, { before, after }, move),
    ...heldFaults(before, after),
    ...straightFaults(header, before, after),
    ...jointFaults(before, move, options),
  ];
}

/** As welded: each weld between two pieces that are there takes its shrinkage. */
function weldedMm({ settings }: Header, { pieces }: Primary): number {
  const there = pieces.filter((piece) => centrelineMm([piece]) > 0).length;
  return centrelineMm(pieces) - mmOf(settings.weldShrinkage) * Math.max(0, there - 1);
}

/** Of those that are whole; of all where none is. Who is still being built is asked of the report, the mean is taken here. */
function meanMm(header: Header, begun: readonly Primary[], lengthsMm: readonly number[]): number {
  const building = new Set(
    matchHeader(header).primaries.flatMap((match) => (match.building === null ? [] : [match.primaryId])),
  );
  const whole = lengthsMm.filter((_, index) => !building.has(begun[index]?.id ?? ''));
  const counted = whole.length === 0 ? lengthsMm : whole;
  return counted.reduce((sum, mm) => sum + mm, 0) / counted.length;
}

function targetMm(header: Header): number {
  const { target } = header.settings;
  const begun = header.primaries.filter(({ pieces }) => pieces.length > 0);
  const lengthsMm = begun.map((primary) => weldedMm(header, primary));
  if (target.kind === 'typed') return mmOf(target.length);
  if (target.kind === 'longest') return Math.max(...lengthsMm);
  if (target.kind === 'mean') return meanMm(header, begun, lengthsMm);
  return lengthsMm[begun.findIndex(({ id }) => id === target.primaryId)] ?? Number.NaN;
}

/** On the edge of the band is in it; the sums here and there differ in their last digits. */
const EDGE_MM = 1e-6;

function lengthFaults(after: Header, move: Move): readonly string[] {
  const primary = after.primaries.find(({ id }) => id === move.primaryId);
  if (primary === undefined) return ['the primary is gone'];
  const lengthMm = weldedMm(after, primary);
  const offMm = lengthMm - targetMm(after);
  const { minus, plus } = after.settings.tolerance;
  const isInBand = offMm >= -mmOf(minus) - EDGE_MM && offMm <= mmOf(plus) + EDGE_MM;
  return [
    ...(isInBand ? [] : [`not in the band: ${offMm}`]),
    ...(Math.abs(lengthMm - move.lengthMm) > 1e-9 ? [`says ${move.lengthMm}, is ${lengthMm}`] : []),
  ];
}

interface Pair {
  readonly before: Primary;
  readonly after: Primary;
}

/** Without a port nothing says how the tube lies, so that any pose will do to compare two ends in. */
const ANY_PORT: Pose = {
  at: { x: { value: 0, unit: 'mm' }, y: { value: 0, unit: 'mm' }, z: { value: 0, unit: 'mm' } },
  direction: { x: 0, y: 1, z: 0 },
  up: { x: 0, y: 0, z: 1 },
};

/** Null where a clocking that counts is missing. */
function endOf({ pieces, port }: Primary): MatrixFrame | null {
  const bends = pieces.filter((piece) => piece.kind !== 'straight');
  const counting = port === null ? bends.slice(1) : bends;
  return counting.some(({ clockingDeg }) => clockingDeg === null) ? null : endByMatrices(pieces, port ?? ANY_PORT);
}

/** Where the primary's inlet is; null when it has none, or nobody knows where it is. */
function inletOf(header: Header, { inletId, port }: Primary) {
  const inlet = header.collectors.flatMap(({ inlets }) => inlets).find(({ id }) => id === inletId);
  const place = inlet?.place ?? null;
  if (inlet === undefined || place === null || port === null) return null;
  if (place.kind === 'pose') return { inlet, frame: frameIn(poseMatrix(place.pose)) };
  const ending = header.primaries.find(({ id }) => id === place.primaryId);
  const frame = ending === undefined || ending.port === null ? null : endOf(ending);
  return frame === null ? null : { inlet, frame };
}

function closureFaults(header: Header, { before, after }: Pair, move: Move): readonly string[] {
  const was = endOf(before);
  const is = endOf(after);
  if (was === null) return move.kind === 'lengthOnly' && move.endShiftAtMostMm !== null ? [] : ['path unknown before'];
  if (is === null) return ['path unknown after'];
  const wanted = inletOf(header, before);
  const frame = wanted?.frame ?? was;
  const { gap, tiltDeg } = header.settings.closure;
  const off = is.point.clone().sub(frame.point);
  const deepMm = off.dot(frame.tangent);
  const asideMm = off.clone().addScaledVector(frame.tangent, -deepMm).length();
  // The slip takes what lies along the axis within its range; the rest is gap.
  const { deeper, shallower } = wanted?.inlet.slip ?? { deeper: null, shallower: null };
  const alongMm = Math.max(
    0,
    deepMm - (deeper === null ? 0 : mmOf(deeper)),
    -deepMm - (shallower === null ? 0 : mmOf(shallower)),
  );
  const gapMm = Math.hypot(alongMm, asideMm);
  const leanDeg = (is.tangent.angleTo(frame.tangent) * 180) / Math.PI;
  return [
    ...(gapMm > mmOf(gap) + EDGE_MM ? [`gap ${gapMm} over ${mmOf(gap)}`] : []),
    // The arc cosine of a number next to 1 is good to some 1e-6 degrees only.
    ...(leanDeg > tiltDeg + 3e-6 ? [`tilt ${leanDeg} over ${tiltDeg}`] : []),
  ];
}

function isHeld(piece: Piece): boolean {
  return piece.locked || piece.state === 'welded';
}

function heldFaults(before: Primary, after: Primary): readonly string[] {
  return before.pieces.filter(isHeld).flatMap((piece) => {
    const now = after.pieces.find(({ id }) => id === piece.id);
    const isAsBefore = JSON.stringify(now) === JSON.stringify(piece);
    return isAsBefore || isTurnedWhole(before.pieces, piece, now) ? [] : [`touches held ${piece.id}`];
  });
}

/** A welded bend may turn with all that is welded to it, where a joint between the bend before and itself is not welded. */
function isTurnedWhole(pieces: readonly Piece[], piece: Piece, now: Piece | undefined): boolean {
  if (piece.locked || piece.kind === 'straight' || now?.kind !== piece.kind) return false;
  if (JSON.stringify({ ...now, clockingDeg: piece.clockingDeg }) !== JSON.stringify(piece)) return false;
  const at = pieces.indexOf(piece);
  const bends = pieces.slice(0, at).findLastIndex(({ kind }) => kind !== 'straight');
  const isWeld = (joint: number) =>
    pieces[joint]?.state === 'welded' && (pieces[joint - 1] ?? pieces[joint])?.state === 'welded';
  return Array.from({ length: at - bends }, (_, step) => bends + 1 + step).some((joint) => !isWeld(joint));
}

function straightFaults(header: Header, before: Primary, after: Primary): readonly string[] {
  const shortestMm = mmOf(header.settings.shortestStraight);
  return after.pieces.flatMap((piece) => {
    if (piece.kind !== 'straight') return [];
    const mm = mmOf(piece.length);
    const was = before.pieces.find(({ id }) => id === piece.id);
    const isAsBefore = was?.kind === 'straight' && mmOf(was.length) === mm;
    return mm === 0 || mm >= shortestMm - 1e-9 || isAsBefore ? [] : [`straight of ${mm}`];
  });
}

/** No joint between two welded pieces that were neighbours comes apart, and joints are counted as by hand. */
function jointFaults({ pieces }: Primary, move: Move, { maxJoints }: MoveOptions): readonly string[] {
  const broken = move.cost.jointsBroken;
  const welded = broken.filter((joint) => {
    const before = pieces[joint - 1]?.state ?? pieces[joint]?.state;
    return before === 'welded' && pieces[joint]?.state === 'welded';
  });
  const made = jointsByHand(pieces, actsOf(move));
  return [
    ...welded.map((joint) => `breaks weld ${joint}`),
    ...(made !== move.cost.jointsMade ? [`says ${move.cost.jointsMade} joints, is ${made}`] : []),
    ...(maxJoints !== undefined && move.cost.jointsMade > maxJoints ? [`takes ${move.cost.jointsMade} joints`] : []),
  ];
}

function actsOf({ changes }: Move): readonly Act[] {
  return changes.map(actOf);
}

function actOf(change: MoveChange): Act {
  switch (change.kind) {
    case 'kick': {
      const left = [change.before, change.after].filter(({ value }) => value > 0).length;
      return { kind: 'kicked', at: change.pieceIndex, pieces: 3 + left };
    }
    case 'letIn':
    case 'bendIn':
      return { kind: 'letIn', at: change.joint, pieces: 1 };
    case 'bendPair':
      return { kind: 'letIn', at: change.joint, pieces: 2 };
    case 'takeOut':
    case 'bendOut':
      return { kind: 'gone', at: change.pieceIndex };
    case 'clocking':
      return { kind: 'reclocked', at: change.pieceIndex };
    case 'pies':
      return { kind: 'shorter', at: change.pieceIndex };
    default:
      return { kind: isShorter(change) ? 'shorter' : 'replaced', at: change.pieceIndex };
  }
}

function isShorter(change: Extract<MoveChange, { readonly kind: 'length' | 'angle' | 'swap' }>): boolean {
  if (change.kind === 'length') return mmOf(change.to) < mmOf(change.from);
  return change.kind === 'angle' && change.toDeg < change.fromDeg;
}
