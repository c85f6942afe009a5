/** When the pulses of an engine come to its collectors, with the lengths as they are and with all of them equal. */

import { CYCLE_DEG, type Engine } from '../header/engine.ts';
import type { Header, Primary } from '../header/header.ts';
import { matchHeader } from '../length/match-header.ts';
import { firesDeg } from './firing-intervals.ts';
import { cylinderOf } from './firing-order.ts';
import { crankDegrees, travelTimeS } from './sound.ts';
import { soundOf } from './usual-engine.ts';

export interface PulseConditions {
  readonly engine: Engine;
  /** Lengths that were measured, by primary id; all others are those of the pieces. */
  readonly measuredMm?: ReadonlyMap<string, number>;
}

export interface Pulse {
  readonly primaryId: string;
  readonly name: string;
  readonly cylinder: number;
  readonly lengthMm: number;
  /** Crank degrees from the first cylinder of the order, 0 to below 720. */
  readonly firesDeg: number;
  /** How much later its pulse comes than through a primary of the length that all are compared with; negative is earlier. */
  readonly lateDeg: number;
  readonly lateS: number;
}

export interface CollectorPulses {
  /** Null: primaries that no collector is said for. */
  readonly collectorId: string | null;
  readonly name: string | null;
  /** In the order they fire. */
  readonly pulses: readonly Pulse[];
  /** From each pulse to the next and from the last round to the first; 720 in all, none for one pulse alone. */
  readonly equalSpacingsDeg: readonly number[];
  readonly builtSpacingsDeg: readonly number[];
}

export interface PulseTiming {
  readonly soundMs: number;
  /** The target, or where there is none the mean of the lengths. */
  readonly comparedWithMm: number;
  readonly collectors: readonly CollectorPulses[];
  /** Primaries whose name holds no cylinder of the firing order, or not one number. */
  readonly withoutCylinder: readonly Primary[];
  /** Primaries that name a cylinder which one before them names too. */
  readonly sameCylinder: readonly Primary[];
}

/**
 * Order and spacing of the pulses over 720 degrees. Cylinders fire as the engine says; a pulse takes its length over the speed of sound,
 * which in crank degrees is 6 x rpm x time. Linear in the header.
 */
export function pulseTiming(header: Header, { engine, measuredMm }: PulseConditions): PulseTiming {
  const soundMs = soundOf(engine);
  const report = matchHeader(header);
  const lengths = new Map(
    report.primaries.map(({ primaryId, lengthMm }) => [primaryId, measuredMm?.get(primaryId) ?? lengthMm]),
  );
  const begun = header.primaries.filter(({ pieces }) => pieces.length > 0);
  const comparedWithMm = report.targetMm ?? mean(begun.map(({ id }) => lengths.get(id) ?? 0));
  const taken = new Set<number>();
  const sorted = { pulses: new Map<string, Pulse>(), withoutCylinder: [] as Primary[], sameCylinder: [] as Primary[] };
  for (const primary of begun) {
    const cylinder = cylinderOf(primary.name, engine.firingOrder);
    if (cylinder === null) sorted.withoutCylinder.push(primary);
    else if (taken.has(cylinder)) sorted.sameCylinder.push(primary);
    else {
      taken.add(cylinder);
      const lengthMm = lengths.get(primary.id) ?? 0;
      sorted.pulses.set(primary.id, pulseOf({ primary, cylinder, lengthMm }, { engine, soundMs, comparedWithMm }));
    }
  }
  const { pulses, ...left } = sorted;
  return { soundMs, comparedWithMm, collectors: collectorsOf(header, pulses), ...left };
}

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);

interface Fired {
  readonly primary: Primary;
  readonly cylinder: number;
  readonly lengthMm: number;
}

type Compared = Pick<PulseTiming, 'soundMs' | 'comparedWithMm'> & { readonly engine: Engine };

function pulseOf({ primary, cylinder, lengthMm }: Fired, { engine, soundMs, comparedWithMm }: Compared): Pulse {
  const lateS = travelTimeS(lengthMm - comparedWithMm, soundMs);
  return {
    primaryId: primary.id,
    name: primary.name,
    cylinder,
    lengthMm,
    firesDeg: firesDeg(engine, cylinder),
    lateDeg: crankDegrees(lateS, engine.rpm),
    lateS,
  };
}

function collectorsOf(header: Header, pulses: ReadonlyMap<string, Pulse>): readonly CollectorPulses[] {
  const owners = new Map(header.collectors.flatMap((collector) => collector.inlets.map(({ id }) => [id, collector])));
  const groups = new Map<string | null, { readonly name: string | null; readonly pulses: Pulse[] }>();
  for (const primary of header.primaries) {
    const pulse = pulses.get(primary.id);
    if (pulse === undefined) continue;
    const collector = owners.get(primary.inletId ?? '') ?? null;
    const group = groups.get(collector?.id ?? null) ?? { name: collector?.name ?? null, pulses: [] };
    group.pulses.push(pulse);
    groups.set(collector?.id ?? null, group);
  }
  return [...groups].map(([collectorId, group]): CollectorPulses => {
    const ordered = group.pulses.toSorted((a, b) => a.firesDeg - b.firesDeg);
    return {
      collectorId,
      name: group.name,
      pulses: ordered,
      equalSpacingsDeg: spacings(ordered.map(({ firesDeg }) => firesDeg)),
      builtSpacingsDeg: spacings(ordered.map(({ firesDeg, lateDeg }) => firesDeg + lateDeg)),
    };
  });
}

/** From each to the next; the last goes on to the first of the next cycle. Negative where a late pulse is overtaken by the next. */
function spacings(atDeg: readonly number[]): readonly number[] {
  if (atDeg.length < 2) return [];
  return atDeg.map((deg, index) => {
    const next = atDeg[index + 1];
    return next === undefined ? (atDeg[0] ?? 0) + CYCLE_DEG - deg : next - deg;
  });
}
