/** Where a primary must end, and how it stands there now. */

import type { Header, Primary } from '../../header/header.ts';
import type { MatchReport } from '../../length/match-header.ts';
import { type ClosureLimits, closureOf, isClosed } from '../../path/ends/closure.ts';
import { closureLimits, findInlet, inletFrame } from '../../path/ends/inlet-pose.ts';
import type { Frame } from '../../path/frame.ts';
import type { PathProblem } from '../../path/path-problem.ts';
import { tracePrimary } from '../../path/trace-primary.ts';
import { mmOf } from '../../units/length.ts';
import type { Standing } from '../outcome.ts';

export interface FixedEnds {
  /** Frames before every piece, and the present end last. */
  readonly joints: readonly Frame[];
  readonly end: Frame;
  readonly wanted: Frame;
  readonly limits: ClosureLimits;
}

export interface ReadEnds {
  /** Null: the path is not known. */
  readonly fixed: FixedEnds | null;
  readonly reference: Standing['endReference'];
  readonly unknown: PathProblem | null;
}

/** Closure needs a little room even where the header asks for none, or rounding in the last digit would break it. */
const LEAST_GAP_MM = 1e-6;
const LEAST_TILT_DEG = 1e-6;

/** The end is to be in the primary's inlet; where it has none, or the inlet has no known pose, it is to stay where it is. */
export function fixedEnds(header: Header, primary: Primary): ReadEnds {
  const path = tracePrimary(primary, primary.port);
  if (!path.ok) return { fixed: null, reference: 'none', unknown: path.problems[0] ?? null };
  const { joints, end } = path.value;
  const inlet = primary.inletId === null ? null : findInlet(header, primary.inletId);
  const pose = primary.inletId === null || primary.port === null ? null : inletFrame(header, primary.inletId);
  const { gap, tiltDeg } = header.settings.closure;
  const room = { gapMm: Math.max(LEAST_GAP_MM, mmOf(gap)), tiltDeg: Math.max(LEAST_TILT_DEG, tiltDeg) };
  if (inlet === null || pose?.ok !== true) {
    return {
      fixed: { joints, end, wanted: end, limits: { ...room, deeperMm: 0, shallowerMm: 0 } },
      reference: 'presentEnd',
      unknown: pose?.ok === false ? (pose.problems[0] ?? null) : null,
    };
  }
  const limits = { ...closureLimits(header, inlet), ...room };
  return { fixed: { joints, end, wanted: pose.value, limits }, reference: 'inlet', unknown: null };
}

export function standingOf(match: MatchReport, primaryId: string, { fixed, reference, unknown }: ReadEnds): Standing {
  const own = match.primaries.find((one) => one.primaryId === primaryId);
  const closure = fixed === null ? null : closureOf(fixed.end, fixed.wanted);
  return {
    endReference: reference,
    closure,
    isClosed: closure !== null && fixed !== null && isClosed(closure, fixed.limits),
    lengthMm: own?.lengthMm ?? 0,
    deviationMm: own?.deviationMm ?? null,
    unknown,
  };
}
