/** A sleeve of paper whose upper edge is the line to saw: what cope and merge have in common. */

import { quarterLines, SLEEVE_MM } from './quarter-lines.ts';
import { sampleCurve } from './sample-curve.ts';
import { at, type Strip, type StripPoint, straightLine } from './strip.ts';

export interface Sleeve extends Pick<Strip, 'widthMm' | 'heightMm' | 'lines'> {
  /** From the highest point of the saw line to its lowest, mm. */
  readonly depthMm: number;
  /** What `cutMm` is at the highest point, mm. */
  readonly nearestMm: number;
}

/**
 * The sleeve of a tube of this OD.
 * @param cutMm how far along the tube, away from the cut, the saw line lies at a turn from 0 to 2 pi, mm from any place on its axis
 */
export function sleeveOf(odMm: number, cutMm: (turnRad: number) => number): Sleeve {
  const widthMm = Math.PI * odMm;
  const curve = sampleCurve((turnRad) => at((odMm / 2) * turnRad, cutMm(turnRad)), [0, 2 * Math.PI]);
  const nearestMm = Math.min(...curve.map(({ yMm }) => yMm));
  const saw = curve.map(({ xMm, yMm }): StripPoint => at(xMm, yMm - nearestMm));
  const depthMm = Math.max(...saw.map(({ yMm }) => yMm));
  const heightMm = depthMm + SLEEVE_MM;
  return { widthMm, heightMm, depthMm, nearestMm, lines: sleeveLines(saw, widthMm, heightMm) };
}

function sleeveLines(saw: readonly StripPoint[], widthMm: number, heightMm: number): Strip['lines'] {
  const [left, right] = [saw[0]?.yMm ?? 0, saw.at(-1)?.yMm ?? 0];
  return [
    { use: 'saw', points: saw },
    straightLine('edge', at(0, left), at(0, heightMm)),
    straightLine('edge', at(0, heightMm), at(widthMm, heightMm)),
    straightLine('edge', at(widthMm, heightMm), at(widthMm, right)),
    ...quarterLines(widthMm, saw, heightMm),
  ];
}
