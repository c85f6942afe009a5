/** Clocking as it is measured and marked at the bench: two gauge readings, or a distance round the tube. */

import { wrapDeg } from '../vector.ts';

/** Which way the tube is looked along when the gauge is read. */
export type LookingFrom = 'port' | 'collector';

export interface GaugeReadings {
  /** Reading on the plane of the bend before, in degrees, clockwise positive as it is seen. */
  readonly beforeDeg: number;
  /** Reading on the plane of the bend itself, the same way round. */
  readonly bendDeg: number;
  readonly lookingFrom: LookingFrom;
}

/**
 * Clocking from two readings of a digital angle gauge, in degrees over (-180, 180].
 *
 * Looking from the port along the direction of travel the right-hand rule runs clockwise, so the clocking is the
 * difference of the readings; looking back from the collector it is the opposite. Not finite in, NaN out.
 */
export function clockingFromGauge(readings: GaugeReadings): number {
  const turnDeg = wrapDeg(readings.bendDeg - readings.beforeDeg);
  return readings.lookingFrom === 'port' ? turnDeg : wrapDeg(-turnDeg) + 0;
}

/** Distance to mark round the outside of the tube for a clocking, `pi OD c / 360` in millimetres; signed as the clocking. */
export function clockingMarkMm(odMm: number, clockingDeg: number): number {
  return (Math.PI * odMm * clockingDeg) / 360;
}

/** Clocking in degrees that a distance round the outside of the tube stands for; `odMm` above zero. Not wrapped. */
export function clockingFromMark(odMm: number, markMm: number): number {
  return (360 * markMm) / (Math.PI * odMm);
}
