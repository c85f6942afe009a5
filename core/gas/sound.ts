/** How fast sound is in the gas, and what a length is worth in time and in degrees of the crank. */

/** J/(mol K); CODATA 2018, exact. */
export const GAS_CONSTANT = 8.314462618;

export interface GasState {
  readonly temperatureK: number;
  /** Ratio of the specific heats. */
  readonly gamma: number;
  /** Grams a mole. */
  readonly molarMass: number;
}

/**
 * Speed of sound in an ideal gas, metres a second: `sqrt(gamma R T / M)`. NaN for figures that no gas has.
 * A pulse of an engine is steeper and faster, rides on gas that moves, and cools on its way: a figure to compare by.
 */
export function speedOfSound({ temperatureK, gamma, molarMass }: GasState): number {
  return Math.sqrt((gamma * GAS_CONSTANT * temperatureK * 1000) / molarMass);
}

/** Crank degrees that pass in a time: 6 a second for every turn a minute. */
export function crankDegrees(timeS: number, rpm: number): number {
  return 6 * rpm * timeS;
}

/** Seconds that sound takes over a length. */
export function travelTimeS(lengthMm: number, soundMs: number): number {
  return lengthMm / 1000 / soundMs;
}
