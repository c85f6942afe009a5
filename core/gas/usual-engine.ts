/** What stands for an engine until something is said of it. */

import { type Engine, kelvinOf, type TunedInputs } from '../header/engine.ts';
import type { Header } from '../header/header.ts';
import { inches } from '../units/length.ts';
import { COMMON_ORDERS } from './firing-order.ts';
import { speedOfSound } from './sound.ts';

/**
 * The engine of a header; where none is said, one of as many cylinders as there are primaries, at 6000 rpm. Its gas is burnt
 * petrol at 650 degrees C: gamma 1.30 and 28.9 g/mol, by the NASA polynomials of its parts at 900 K (frozen composition).
 */
export function engineOf(header: Header): Engine {
  if (header.engine !== undefined) return header.engine;
  const cylinders = Math.max(1, header.primaries.length);
  const found = COMMON_ORDERS.find(({ order }) => order.length === cylinders);
  return {
    firingOrder: found?.order ?? Array.from({ length: cylinders }, (_, index) => index + 1),
    rpm: 6000,
    gasTemperature: { value: 650, unit: 'C' },
    gamma: 1.3,
    molarMass: 28.9,
  };
}

export function soundOf({ gasTemperature, gamma, molarMass }: Engine): number {
  return speedOfSound({ temperatureK: kelvinOf(gasTemperature), gamma, molarMass });
}

/** Where the inputs of a tuned length start from: the engine's own speed and gas, an opening and a port as many engines have. */
export function firstTunedInputs(engine: Engine): TunedInputs {
  const soundMs = Math.round(soundOf(engine) * 10) / 10;
  return {
    rpm: engine.rpm,
    openingDeg: 70,
    travelDeg: 120,
    order: 3,
    soundMs,
    port: inches(3),
    cylinder: { value: 500, unit: 'ml' },
  };
}
