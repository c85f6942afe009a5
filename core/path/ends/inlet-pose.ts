/** Where a collector inlet is: measured, or where another primary ends. */

import type { Collector, Header, Inlet, Primary } from '../../header/header.ts';
import { failure, type Result, success } from '../../result.ts';
import { mmOf } from '../../units/length.ts';
import { type Frame, frameOfPose } from '../frame.ts';
import type { PathProblem } from '../path-problem.ts';
import { type TubePath, tracePrimary } from '../trace-primary.ts';
import { type Closure, type ClosureLimits, closureOf } from './closure.ts';

/** The inlet of that id in any collector; null when there is none. */
export function findInlet(header: Header, inletId: string): Inlet | null {
  for (const collector of header.collectors) {
    const inlet = collector.inlets.find((candidate) => candidate.id === inletId);
    if (inlet !== undefined) return inlet;
  }
  return null;
}

/** The collector that a primary goes into; null when that is not said. */
export function collectorOf(header: Header, { inletId }: Primary): Collector | null {
  if (inletId === null) return null;
  return header.collectors.find(({ inlets }) => inlets.some(({ id }) => id === inletId)) ?? null;
}

/**
 * The frame of an inlet in the header frame; its tangent is the direction of travel into the collector.
 *
 * An inlet that is the end of a primary follows that primary's own path, which hangs on its port and pieces alone, so
 * this cannot run in circles (the document refuses a primary that must end where it ends itself). Problems: no such inlet, not measured, a bad pose, or the other
 * primary's path is not known.
 */
export function inletFrame(header: Header, inletId: string): Result<Frame, PathProblem> {
  const inlet = findInlet(header, inletId);
  if (inlet === null) return failure({ kind: 'noSuchInlet', inletId });
  if (inlet.place === null) return failure({ kind: 'inletNotMeasured', inletId, inletName: inlet.name });
  if (inlet.place.kind === 'pose') return frameOfPose(inlet.place.pose, ['inlets', inletId, 'place', 'pose']);
  const { primaryId } = inlet.place;
  const primary = header.primaries.find((candidate) => candidate.id === primaryId);
  if (primary === undefined) return failure({ kind: 'noSuchPrimary', primaryId });
  const path = placedPath(primary);
  return path.ok ? success(path.value.end) : path;
}

/** The path of a primary where it really is; without a measured port it is nowhere, which is a problem here. */
export function placedPath(primary: Primary): Result<TubePath, PathProblem> {
  return primary.port === null
    ? failure({ kind: 'portMissing', primaryId: primary.id, primaryName: primary.name })
    : tracePrimary(primary, primary.port);
}

/** Closure of a primary at its own inlet; see `closureOf`. Problems name what is not known yet. */
export function primaryClosure(header: Header, primary: Primary): Result<Closure, PathProblem> {
  if (primary.inletId === null) {
    return failure({ kind: 'inletNotAssigned', primaryId: primary.id, primaryName: primary.name });
  }
  const path = placedPath(primary);
  if (!path.ok) return path;
  const inlet = inletFrame(header, primary.inletId);
  return inlet.ok ? success(closureOf(path.value.end, inlet.value)) : inlet;
}

/** What a header accepts as closed at one of its inlets. */
export function closureLimits(header: Header, inlet: Inlet): ClosureLimits {
  const { gap, tiltDeg } = header.settings.closure;
  return {
    gapMm: mmOf(gap),
    tiltDeg,
    deeperMm: mmOf(inlet.slip.deeper),
    shallowerMm: mmOf(inlet.slip.shallower),
  };
}
