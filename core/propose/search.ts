/** What one search for proposals works with. */

import { type SawStep, sawSteps } from '../moves/offer/saw-steps.ts';
import { mmOf } from '../units/length.ts';
import { unitOf } from '../units/length-style.ts';
import { shapeLengthMm, type TubeShape } from './joints/tube-shape.ts';
import { type Candidate, candidateOf, type ReadyAngles, readyAngles } from './offer/candidate.ts';
import { roundShape } from './offer/round-shape.ts';
import { Surroundings } from './offer/surroundings.ts';
import { centrelineWindow } from './problem/centreline.ts';
import type { ProposeProblem } from './problem/propose-problem.ts';
import type { WantedWindow } from './problem/wanted-window.ts';

/** What takes candidates in as they come. */
export interface Keeper {
  readonly count: number;
  /** One on the coarsest grid was taken in. */
  readonly hasCoarse: boolean;
  readonly take: (candidate: Candidate) => void;
}

export class ProposeSearch<Kept extends Keeper = Keeper> {
  readonly problem: ProposeProblem;
  readonly ready: ReadyAngles;
  readonly clrsMm: readonly number[];
  readonly steps: readonly SawStep[];
  readonly surroundings: Surroundings;
  readonly best: Kept;
  /** There were tubes of the length wanted, but no rounding of them closed. */
  hasLostToRounding = false;

  /** `keeperFor` is handed what the tube has to keep clear of. */
  constructor(problem: ProposeProblem, keeperFor: (surroundings: Surroundings) => Kept) {
    this.problem = problem;
    this.ready = readyAngles(problem);
    this.clrsMm = problem.clrs.map(mmOf);
    this.steps = sawSteps(problem.header.settings.display);
    this.surroundings = new Surroundings(problem);
    this.best = keeperFor(this.surroundings);
  }

  /** What the new centreline of so many bends may measure; null: as short as can be. */
  window(bends: number): WantedWindow | null {
    return centrelineWindow(this.problem, bends);
  }

  /** Rounds a tube on one grid and takes it in; false when it does not close on it. */
  enter(shape: TubeShape, step: SawStep): boolean {
    const candidate = this.roundedOn(shape, step);
    if (candidate !== null) this.best.take(candidate);
    else if (this.isOfLength(shape)) this.hasLostToRounding = true;
    return candidate !== null;
  }

  private isOfLength(shape: TubeShape): boolean {
    const window = this.window(shape.bends.length);
    const lengthMm = shapeLengthMm(shape);
    return window === null || (lengthMm >= window.lowMm && lengthMm <= window.highMm);
  }

  /** The tube on the coarsest grid on which it closes; null where it closes on none. */
  rounded(shape: TubeShape): Candidate | null {
    for (const step of this.steps) {
      const candidate = this.roundedOn(shape, step);
      if (candidate !== null) return candidate;
    }
    return null;
  }

  private roundedOn(shape: TubeShape, step: SawStep): Candidate | null {
    const { ends, limits, least, header } = this.problem;
    const window = this.window(shape.bends.length);
    const unit = unitOf(header.settings.display);
    const rounded = roundShape({ ends, limits, least, window, unit }, shape, step);
    if (rounded === null) return null;
    const candidate = candidateOf(this.problem, this.ready, rounded, window?.aimMm ?? null);
    return { ...candidate, isCoarse: step === this.steps[0] };
  }
}
