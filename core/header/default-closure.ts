/** How near an end must be to its inlet to count as closed, where nobody has said. */

import { type Length, millimetres, mmOf } from '../units/length.ts';
import type { Header, Settings } from './header.ts';

type Closure = Settings['closure'];

/** The least gap and the largest, mm: finer is not read at the bench; wider is not bridged without filler, but under a sleeve. */
const LEAST_MM = 0.2;
const MOST_MM = { butt: 1, sleeve: 1.5 } as const;

/**
 * The closure that follows the shop's tolerance on length and the inlets' slip (common practice).
 *
 * A gap is pulled shut when the tube is tacked, and takes up to as much off what was read of its length, or puts it on. So it is
 * a sixth of the tolerance's narrower side, which leaves the verdict standing; a third where every inlet lets its tube slip,
 * since there the length is settled in the inlet and a sleeve covers the joint. To a tenth of a millimetre, 0.2 at least and 1 at
 * most, or 1.5 under a sleeve. The tilt is half a degree for each millimetre of that gap, which on tube of 1 3/4 in opens the
 * joint on one side by less than half the gap. At 1/8 in either way and no slip: 0.5 mm and 0.25 degree.
 *
 * Where it is used: a new header starts with it, and as long as it is what stands in a header it moves along when tolerance or
 * slip is changed (`closureAlong`). Any other figure was typed, and stays. What is stored is only changed by such a step.
 */
export function defaultClosure(tolerance: Settings['tolerance'], allSlip: boolean): Closure {
  const narrowerMm = Math.min(mmOf(tolerance.minus), mmOf(tolerance.plus));
  const wantedMm = narrowerMm / (allSlip ? 3 : 6);
  const gapMm = Math.min(allSlip ? MOST_MM.sleeve : MOST_MM.butt, Math.max(LEAST_MM, wantedMm));
  const tenths = Math.round(gapMm * 10);
  return { gap: millimetres(tenths / 10), tiltDeg: (5 * tenths) / 100 };
}

/** Whether every inlet lets its tube slip; not without inlets. */
function doAllSlip(collectors: Header['collectors']): boolean {
  const inlets = collectors.flatMap((collector) => collector.inlets);
  const slips = (length: Length) => mmOf(length) > 0;
  return inlets.length > 0 && inlets.every(({ slip }) => slips(slip.deeper) || slips(slip.shallower));
}

function isSameClosure(one: Closure, other: Closure): boolean {
  return Math.abs(mmOf(one.gap) - mmOf(other.gap)) < 1e-9 && Math.abs(one.tiltDeg - other.tiltDeg) < 1e-9;
}

/**
 * What goes into the settings along with another tolerance or other inlets; empty where the closure was typed, or stays as it is.
 */
export function closureAlong(
  { settings, collectors }: Header,
  asked: { readonly tolerance?: Settings['tolerance']; readonly collectors?: Header['collectors'] },
): Partial<Pick<Settings, 'closure'>> {
  if (!isSameClosure(settings.closure, defaultClosure(settings.tolerance, doAllSlip(collectors)))) return {};
  const tolerance = asked.tolerance ?? settings.tolerance;
  const closure = defaultClosure(tolerance, doAllSlip(asked.collectors ?? collectors));
  return isSameClosure(closure, settings.closure) ? {} : { closure };
}

/** Where a new header starts that follows another one, with no inlets yet: at its own figures if they were typed. */
export function closureAfter({ closure, tolerance }: Settings): Closure {
  const follows = [false, true].some((allSlip) => isSameClosure(closure, defaultClosure(tolerance, allSlip)));
  return follows ? defaultClosure(tolerance, false) : closure;
}
