/** Lengths that published formulas give for a pipe to be tuned to an engine speed: where to start from, never where to end. */

import type { TunedFormula, TunedInputs } from '../header/engine.ts';
import type { HeaderProblem } from '../header/header-problem.ts';
import type { Volume } from '../header/measured.ts';
import { failure, type Result, success } from '../result.ts';
import { MM_PER_INCH, mmOf } from '../units/length.ts';

export type TunedInputName = Exclude<keyof TunedInputs, 'cylinder'>;

export interface TunedFormulaEntry {
  readonly id: TunedFormula;
  readonly name: string;
  /** As it is written. */
  readonly formula: string;
  readonly source: string;
  /** What it takes, in the order asked for. */
  readonly inputs: readonly TunedInputName[];
  /** What it does not know, and where it ends. */
  readonly limits: string;
  /** Other forms of it in use. */
  readonly variants: string;
  /** From the head of the valve, mm. */
  readonly fromValveMm: (inputs: TunedInputs) => number;
}

/** Length in inches of the rule of valve timing, from the head of the valve. */
const timingIn = ({ openingDeg, rpm }: TunedInputs) => (850 * (180 + openingDeg)) / rpm - 3;

/** First primaries of the two-stage rule, inches from the head of the valve. */
export const TWO_STAGE_FIRST_IN = 15;

export const TUNED_FORMULAS: readonly TunedFormulaEntry[] = [
  {
    id: 'valveTiming',
    name: 'Valve timing rule',
    formula: 'P = 850 × (180 + EVO) / rpm − 3, in inches',
    source: 'A. G. Bell, Four-Stroke Performance Tuning (from memory)',
    inputs: ['rpm', 'openingDeg', 'port'],
    limits:
      'A fit to engines of its day: it knows nothing of gas temperature, bore of the pipe, collector or silencer. Counted from the head of the valve, so the port is taken off.',
    variants: 'Some print it without the 3 inches, or counted from the flange face.',
    fromValveMm: (inputs) => timingIn(inputs) * MM_PER_INCH,
  },
  {
    id: 'twoStage',
    name: 'Two stages, 4-2-1',
    formula: 'primaries 15 in, then P − 15 in to the last collector',
    source: 'After A. G. Bell, Four-Stroke Performance Tuning (second-hand)',
    inputs: ['rpm', 'openingDeg', 'port'],
    limits:
      'For four cylinders in pairs 1 + 4 and 2 + 3. The primaries are 15 in whatever the speed; the speed sets the second pipes.',
    variants: 'P is that of the valve timing rule with its 3 inches taken off; others leave them on.',
    fromValveMm: () => TWO_STAGE_FIRST_IN * MM_PER_INCH,
  },
  {
    id: 'waveTravel',
    name: 'Wave out and back',
    formula: 'L = c × angle / (12 × rpm)',
    source: 'Travel of a wave at the speed of sound; as set in H. Heisler, Advanced Engine Technology (from memory)',
    inputs: ['rpm', 'travelDeg', 'soundMs', 'port'],
    limits: 'One trip at one speed of sound, where the real wave is faster and the gas cools along the pipe.',
    variants: 'The angle is a choice: from valve opening to the middle of overlap, or to valve closing.',
    fromValveMm: ({ soundMs, travelDeg, rpm }) => ((soundMs * travelDeg) / (12 * rpm)) * 1000,
  },
  {
    id: 'quarterWave',
    name: 'Quarter wave',
    formula: 'L = c / (4 f), with f = order × rpm / 120',
    source: 'Resonance of a pipe open at one end (acoustics)',
    inputs: ['rpm', 'order', 'soundMs', 'port'],
    limits: 'Small waves in still gas, in a pipe that ends in the open: a collector is not that.',
    variants: 'An open end sounds as if it were 0.61 of its radius longer, one in a flange 0.82; not taken off here.',
    fromValveMm: ({ soundMs, order, rpm }) => (soundMs / (4 * quarterWaveHz({ order, rpm }))) * 1000,
  },
];

/** Frequency that a four-stroke cylinder fires at, times `order`. */
function quarterWaveHz({ order, rpm }: Pick<TunedInputs, 'order' | 'rpm'>): number {
  return (order * rpm) / 120;
}

export interface TunedLength {
  /** From flange face to collector inlet: what a primary is measured by; mm. */
  readonly lengthMm: number;
  readonly fromValveMm: number;
  /** Pipes between the first collectors and the last, of the two-stage rule; mm. Null for all others. */
  readonly secondMm: number | null;
}

/**
 * The length that a formula gives. A problem where it gives none that a primary can have: not above zero once the port is taken
 * off, or inputs that are no numbers.
 */
export function tunedLength(formula: TunedFormula, inputs: TunedInputs): Result<TunedLength, HeaderProblem> {
  const entry = TUNED_FORMULAS.find(({ id }) => id === formula);
  const fromValveMm = entry?.fromValveMm(inputs) ?? Number.NaN;
  const lengthMm = fromValveMm - mmOf(inputs.port);
  const secondMm = formula === 'twoStage' ? (timingIn(inputs) - TWO_STAGE_FIRST_IN) * MM_PER_INCH : null;
  if (lengthMm > 0 && Number.isFinite(lengthMm) && (secondMm === null || secondMm > 0)) {
    return success({ lengthMm, fromValveMm, secondMm });
  }
  const found = Number.isFinite(lengthMm) ? `${Math.round(Math.min(lengthMm, secondMm ?? lengthMm))} mm` : 'no number';
  const expected = 'inputs that give a length above zero';
  return failure({ kind: 'invalidValue', path: ['settings', 'target', 'tuned'], expected, found });
}

/** What an open end adds to how long a pipe sounds, mm: 0.6133 of its radius, in a flange 0.8216 (acoustics, from memory). */
export function endCorrectionMm(boreMm: number, isFlanged: boolean): number {
  return (isFlanged ? 0.8216 : 0.6133) * (boreMm / 2);
}

/** A bore to go with a tuned length: rules of thumb beside a rule of thumb. */
export interface TunedBore {
  /**
   * `ID = 2.1 sqrt(cc / (25 (P + 3)))` inches, as the valve timing rule has it. P is in inches from the head of the valve to the
   * last collector: with two stages both pipes count, or a short first pipe would come out half as wide again.
   */
  readonly boreMm: number;
  /** Engine speed that a primary of the tube at hand lets peak torque come at; see `peakTorqueRpm`. */
  readonly peakTorqueRpm: number;
}

const MM3_PER_CC = 1000;
const CC_PER_IN3 = MM_PER_INCH ** 3 / MM3_PER_CC;

/** What goes with a tuned length, for a cylinder of this size and a tube of this bore. */
export function tunedBore(
  cylinder: Volume,
  { fromValveMm, secondMm, boreMm }: Pick<TunedLength, 'fromValveMm' | 'secondMm'> & { readonly boreMm: number },
): TunedBore {
  const cc = cylinder.value * (cylinder.unit === 'ml' ? 1 : CC_PER_IN3);
  const wholeIn = (fromValveMm + (secondMm ?? 0)) / MM_PER_INCH;
  const inches = 2.1 * Math.sqrt(cc / (25 * (wholeIn + 3)));
  return { boreMm: inches * MM_PER_INCH, peakTorqueRpm: peakTorqueRpm(boreMm, cc / CC_PER_IN3) };
}

/**
 * `88,200 x area / displacement`, square and cubic inches.
 * Source: J. McFarland (second-hand); a rule of thumb.
 */
function peakTorqueRpm(boreMm: number, cylinderIn3: number): number {
  return (88_200 * (Math.PI / 4) * (boreMm / MM_PER_INCH) ** 2) / cylinderIn3;
}
