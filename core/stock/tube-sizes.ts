/** Common walls and outside diameters of tube and pipe, offered as suggestions, and the mass of a tube. */

import { inches, type Length } from '../units/length.ts';

/** A wall by its gauge number. */
export interface GaugeWall {
  readonly gauge: number;
  readonly wall: Length;
}

/**
 * Walls of tube by Birmingham wire gauge (BWG), which is what "16 gauge" means on tube: 0.065 in. Sheet gauges are other
 * numbers, so a gauge is shown with its inches always.
 * Source: BWG tables, for one The Engineering ToolBox, "BWG - Birmingham Wire Gauge".
 */
export const BWG_WALLS: readonly GaugeWall[] = [
  [10, 0.134],
  [11, 0.12],
  [12, 0.109],
  [13, 0.095],
  [14, 0.083],
  [15, 0.072],
  [16, 0.065],
  [17, 0.058],
  [18, 0.049],
  [19, 0.042],
  [20, 0.035],
  [21, 0.032],
  [22, 0.028],
].map(([gauge = 0, wallIn = 0]) => ({ gauge, wall: inches(wallIn) }));

/** The wall of tube of this gauge; null if there is none in the table. */
export function bwgWall(gauge: number): Length | null {
  return BWG_WALLS.find((row) => row.gauge === gauge)?.wall ?? null;
}

export interface PipeSize {
  /** Nominal pipe size in inches. */
  readonly nps: number;
  readonly od: Length;
}

/** Outside diameters of pipe by nominal size, NPS 3/4 to 6. Source: ASME B36.10M and B36.19M, as tabulated in ASTM A312. */
export const PIPE_SIZES: readonly PipeSize[] = [
  [0.75, 1.05],
  [1, 1.315],
  [1.25, 1.66],
  [1.5, 1.9],
  [2, 2.375],
  [2.5, 2.875],
  [3, 3.5],
  [3.5, 4],
  [4, 4.5],
  [5, 5.563],
  [6, 6.625],
].map(([nps = 0, odIn = 0]) => ({ nps, od: inches(odIn) }));

/** The outside diameter of pipe of this nominal size; null if there is none in the table. */
export function pipeOd(nps: number): Length | null {
  return PIPE_SIZES.find((row) => row.nps === nps)?.od ?? null;
}

/**
 * Mass of a metre of round tube: `pi (D - t) t rho`.
 * @param tube outside diameter and wall in mm, density in kg/m3 (steel about 7850)
 * @returns kg/m; right up to a wall of half the diameter, which is a solid bar
 */
export function massPerMetreKg(tube: {
  readonly odMm: number;
  readonly wallMm: number;
  readonly densityKgM3: number;
}): number {
  return Math.PI * (tube.odMm - tube.wallMm) * tube.wallMm * tube.densityKgM3 * 1e-6;
}
