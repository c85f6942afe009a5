/** The engine that a header is for, as far as its pulses need it: firing order, speed and the gas. */

import { assertNever } from '../result.ts';
import type { Length } from '../units/length.ts';
import type { Volume } from './measured.ts';

/** A temperature exactly as it was typed. */
export interface Temperature {
  readonly value: number;
  readonly unit: 'C' | 'F' | 'K';
}

/** Kelvin; zero or less for a temperature that cannot be. */
export function kelvinOf({ value, unit }: Temperature): number {
  switch (unit) {
    case 'K':
      return value;
    case 'C':
      return value + 273.15;
    case 'F':
      return ((value - 32) * 5) / 9 + 273.15;
    default:
      return assertNever(unit);
  }
}

/** Four strokes are two turns of the crank. */
export const CYCLE_DEG = 720;

/** Sevenths of a cycle and the like are typed to a hundredth of a degree, so their sum may be off by a few. */
export const INTERVAL_SUM_SLACK_DEG = 0.1;

export interface Engine {
  /** Numbers of all cylinders from 1 up in the order they fire, each once. */
  readonly firingOrder: readonly number[];
  /**
   * Crank degrees from each cylinder of the order to the next, and from the last round to the first: 720 in all. 0 where two
   * fire together. Not there: they fire evenly.
   */
  readonly firingIntervalsDeg?: readonly number[];
  /** Turns of the crank a minute; above zero. */
  readonly rpm: number;
  /** Above absolute zero. */
  readonly gasTemperature: Temperature;
  /** Ratio of the specific heats of the gas; above 1. */
  readonly gamma: number;
  /** Molar mass of the gas in grams a mole; above zero. */
  readonly molarMass: number;
}

/** What a tuned length was worked out from; a formula takes those that it needs. */
export interface TunedInputs {
  /** Engine speed that the length is tuned to. */
  readonly rpm: number;
  /** Exhaust valve opening, in crank degrees before bottom dead centre. */
  readonly openingDeg: number;
  /** Crank degrees that the wave has for its way out and back. */
  readonly travelDeg: number;
  /** Multiple of the cylinder's own firing frequency that the pipe answers to. */
  readonly order: number;
  /** Speed of sound in the pipe, metres a second. */
  readonly soundMs: number;
  /** From the head of the valve to the flange face. */
  readonly port: Length;
  /** Displacement of one cylinder: for the bore that goes with the length, not for the length. */
  readonly cylinder: Volume;
}

export type TunedFormula = 'valveTiming' | 'twoStage' | 'waveTravel' | 'quarterWave';

/** Where a typed target came from: a starting point that a formula gave. */
export interface TunedSource {
  readonly formula: TunedFormula;
  readonly inputs: TunedInputs;
}
