/** Everything that must hold of a move that is offered, checked from the outside with the edit applied. */

import { applyEdit } from '../../../core/edits/apply-edit.ts';
import type { Header, Piece, Primary } from '../../../core/header/header.ts';
import { matchHeader } from '../../../core/length/match-header.ts';
import type { Move, MoveOptions } from '../../../core/moves/move.ts';
import { closureOf } from '../../../core/path/ends/closure.ts';
import { closureLimits, findInlet, inletFrame } from '../../../core/path/ends/inlet-pose.ts';
import { tracePrimary } from '../../../core/path/trace-primary.ts';
import { mmOf } from '../../../core/units/length.ts';

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
    ...closureFaults(header, { before, after }, { move, options }),
    ...heldFaults(before, after, options),
    ...straightFaults(header, before, after),
    ...jointFaults(before, move, options),
  ];
}

function lengthFaults(after: Header, move: Move): readonly string[] {
  const own = matchHeader(after).primaries.find(({ primaryId }) => primaryId === move.primaryId);
  if (own?.verdict !== 'inBand') return [`not in the band: ${own?.deviationMm}`];
  return Math.abs(own.lengthMm - move.lengthMm) > 1e-9 ? [`says ${move.lengthMm}, is ${own.lengthMm}`] : [];
}

interface Pair {
  readonly before: Primary;
  readonly after: Primary;
}

function closureFaults(
  header: Header,
  { before, after }: Pair,
  { move, options }: { readonly move: Move; readonly options: MoveOptions },
): readonly string[] {
  const was = tracePrimary(before, before.port);
  const is = tracePrimary(after, after.port);
  if (!was.ok) return move.kind === 'lengthOnly' && move.endShiftAtMostMm !== null ? [] : ['path unknown before'];
  if (!is.ok) return ['path unknown after'];
  const isPresent = options.endAt === 'present' || before.port === null || before.inletId === null;
  const inlet = isPresent ? null : findInlet(header, before.inletId ?? '');
  const frame = inlet === null ? null : inletFrame(header, inlet.id);
  const wanted = frame?.ok === true ? frame.value : was.value.end;
  const closure = closureOf(is.value.end, wanted);
  const limits =
    inlet !== null && frame?.ok === true
      ? closureLimits(header, inlet)
      : {
          gapMm: mmOf(header.settings.closure.gap),
          tiltDeg: header.settings.closure.tiltDeg,
          deeperMm: 0,
          shallowerMm: 0,
        };
  // The slip takes what lies along the axis within its range; the rest is gap.
  const alongMm = Math.max(0, closure.alongMm - limits.shallowerMm, -closure.alongMm - limits.deeperMm);
  const gapMm = Math.hypot(alongMm, closure.asideMm);
  return [
    ...(gapMm > limits.gapMm + 1e-9 ? [`gap ${gapMm} over ${limits.gapMm}`] : []),
    ...(closure.tiltDeg > limits.tiltDeg + 1e-9 ? [`tilt ${closure.tiltDeg} over ${limits.tiltDeg}`] : []),
  ];
}

function isHeld(piece: Piece, { locked = [] }: MoveOptions): boolean {
  return piece.locked || piece.state === 'welded' || locked.includes(piece.id);
}

function heldFaults(before: Primary, after: Primary, options: MoveOptions): readonly string[] {
  return before.pieces
    .filter((piece) => isHeld(piece, options))
    .flatMap((piece) => {
      const now = after.pieces.find(({ id }) => id === piece.id);
      return JSON.stringify(now) === JSON.stringify(piece) ? [] : [`touches held ${piece.id}`];
    });
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

/** No joint between two welded pieces that were neighbours comes apart, nor more joints than allowed. */
function jointFaults({ pieces }: Primary, move: Move, { maxJointsBroken }: MoveOptions): readonly string[] {
  const broken = move.cost.jointsBroken;
  const welded = broken.filter((joint) => {
    const before = pieces[joint - 1]?.state ?? pieces[joint]?.state;
    return before === 'welded' && pieces[joint]?.state === 'welded';
  });
  return [
    ...welded.map((joint) => `breaks weld ${joint}`),
    ...(maxJointsBroken !== undefined && broken.length > maxJointsBroken ? [`breaks ${broken.length} joints`] : []),
  ];
}
