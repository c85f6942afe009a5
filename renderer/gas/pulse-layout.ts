/** Where the pulses of one collector stand on a line of 720 degrees. */

import * as d3 from 'd3';
import { type CollectorPulses, CYCLE_DEG } from '../../core/index.ts';
import { degreeWords } from './gas-words.ts';

export interface PulseMark {
  readonly primaryId: string;
  /** What a mark is named by: names of primaries are too long for it, and begin alike. */
  readonly cylinder: number;
  readonly x: number;
}

export interface SpacingLabel {
  readonly key: string;
  /** Middle of the gap. */
  readonly x: number;
  readonly text: string;
}

export interface PulseLane {
  readonly marks: readonly PulseMark[];
  /** Only of gaps that a figure fits into. */
  readonly spacings: readonly SpacingLabel[];
}

export interface PulseLayout {
  readonly ticks: readonly { readonly deg: number; readonly x: number }[];
  readonly equal: PulseLane;
  readonly built: PulseLane;
}

/** Room on both sides for half a figure. */
const MARGIN = 14;
const TICK_STEP_DEG = 180;
/** Width of a digit, and of a gap's figure at least, in pixels of the drawing. */
const DIGIT = 7;

/** @param width of the drawing in its own units, 100 at least */
export function pulseLayout(
  { pulses, equalSpacingsDeg, builtSpacingsDeg }: CollectorPulses,
  width: number,
): PulseLayout {
  const x = d3.scaleLinear([0, CYCLE_DEG], [MARGIN, Math.max(100, width) - MARGIN]);
  const lane = (atDeg: readonly number[], gapsDeg: readonly number[], words: (deg: number) => string): PulseLane => ({
    marks: pulses.map(({ primaryId, cylinder }, index) => ({ primaryId, cylinder, x: x(onCycle(atDeg[index] ?? 0)) })),
    spacings: gapsDeg.flatMap((gap, index): readonly SpacingLabel[] => {
      const from = onCycle(atDeg[index] ?? 0);
      const text = words(gap);
      // The last gap goes round the end of the line: its figure stands where there is more of it.
      const [low, high] = from + gap <= CYCLE_DEG ? [from, from + gap] : longerPart(from, gap);
      if (x(high) - x(low) < text.length * DIGIT) return [];
      return [{ key: `${index}`, x: x((low + high) / 2), text }];
    }),
  });
  const firesDeg = pulses.map(({ firesDeg: deg }) => deg);
  const builtDeg = pulses.map(({ firesDeg: deg, lateDeg }) => deg + lateDeg);
  return {
    ticks: d3.range(0, CYCLE_DEG + 1, TICK_STEP_DEG).map((deg) => ({ deg, x: x(deg) })),
    equal: lane(firesDeg, equalSpacingsDeg, degreeWords),
    built: lane(builtDeg, builtSpacingsDeg, (deg) => `${deg.toFixed(1)}°`),
  };
}

/** A place on the line of one cycle: what is early in the first comes at the end of it. */
function onCycle(deg: number): number {
  return ((deg % CYCLE_DEG) + CYCLE_DEG) % CYCLE_DEG;
}

function longerPart(from: number, gap: number): readonly [number, number] {
  const after = from + gap - CYCLE_DEG;
  return CYCLE_DEG - from >= after ? [from, CYCLE_DEG] : [0, after];
}
