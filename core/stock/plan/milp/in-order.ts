/** The goals one after the other: each is made as small as it can be while those before it stay where they are. */

import type { Chosen } from '../chosen.ts';
import type { Columns } from '../columns/columns.ts';
import { type CutPlan, GOALS, type Goal, type GoalBound, type PlanGoals } from '../cut-plan.ts';
import { dive } from './dive.ts';
import { firstSticks } from './first-sticks.ts';
import { GrowingPlan } from './growing-plan.ts';
import type { MilpModel, SolveMilp } from './milp.ts';
import type { PlanModel } from './plan-model.ts';
import { readValues } from './read-values.ts';
import { PRICE_NOISE, sticksWorth } from './stick-prices.ts';
import { type WeightedGoal, weighted, weightedGoals } from './weighted-goal.ts';

/** What a search works with, and how it is told to end. */
export interface SearchTools {
  readonly solveMilp: SolveMilp;
  /** A clock, ms. */
  readonly now: () => number;
  /** When the search has to end, on that clock. */
  readonly untilMs: number;
  /** Told after each goal but the last what the best plan is so far. */
  readonly report?: (best: InOrder) => void;
}

export interface InOrder {
  readonly columns: Columns;
  readonly chosen: Chosen;
  readonly bounds: readonly GoalBound[];
  readonly ended: CutPlan['ended'];
}

/** Ways of cutting straight stock that are looked into at once when a gap is closed. */
const MOST_WAYS = 20_000;
const MANY_STRAIGHTS = 40;

/**
 * Each goal in three steps. Its program is solved without whole numbers, with ways of cutting straight stock added as long as
 * one would help (column generation: Gilmore and Gomory, Operations Research 9, 1961); that is a bound. Then in whole numbers
 * over the ways at hand; that is a plan. Where the two differ, every way whose reduced cost is within the difference is added
 * and no other is looked at: a better plan has no other, so what then comes out is the least.
 *
 * @param columns with all ways of cutting bends and legs; its sticks are not looked at
 */
export function solveInOrder(columns: Columns, tools: SearchTools): InOrder {
  const plan = new GrowingPlan(columns, firstSticks(columns));
  const held: Partial<Record<Goal, number>> = {};
  const bounds: GoalBound[] = [];
  let ended: CutPlan['ended'] = 'searched';
  for (const goal of weightedGoals(columns)) {
    const lowest = new GoalSearch(plan, { goal, held, tools }).search();
    const reached = plan.goals;
    if (lowest < weighted(reached, goal)) ended = tools.now() < tools.untilMs ? 'gaveUp' : 'timeUp';
    bounds.push(...boundsOf(goal, reached, lowest));
    for (const name of goal.goals) held[name] = reached[name];
    tools.report?.({ ...planOf(plan), bounds: [...bounds, ...openBounds(plan, bounds.length)], ended });
  }
  return { ...planOf(plan), bounds, ended };
}

function planOf(plan: GrowingPlan): Pick<InOrder, 'columns' | 'chosen'> {
  return { columns: plan.columns, chosen: readValues(plan.columns, plan.model, plan.values) };
}

/** Of goals that are still to be looked into: what is sure without looking. */
function openBounds({ goals, model }: GrowingPlan, from: number): readonly GoalBound[] {
  return GOALS.slice(from).map((goal) => ({
    goal,
    reached: goals[goal],
    bound: goal === 'welds' ? -jointsAtMost(model) : 0,
  }));
}

/** A straight stays on one bend at most. */
function jointsAtMost({ meanings }: PlanModel): number {
  const joinable = meanings.flatMap((meaning) =>
    meaning.kind === 'joint' ? meaning.joint.joints.map(({ straightId }) => straightId) : [],
  );
  return new Set(joinable).size;
}

/** Bounds of the goals that one sum is made of: the first by its weight, the next if the first has reached its own. */
function boundsOf({ goals, weights, step }: WeightedGoal, reached: PlanGoals, lowest: number): readonly GoalBound[] {
  let left = lowest;
  let isReached = true;
  return goals.map((goal): GoalBound => {
    const isLast = goal === goals.at(-1);
    const bound = isReached ? (isLast ? left : Math.floor((left + step / 2) / weights[goal])) : 0;
    if (bound < reached[goal]) isReached = false;
    left -= weights[goal] * reached[goal];
    return { goal, reached: reached[goal], bound };
  });
}

interface Settling {
  readonly goal: WeightedGoal;
  readonly held: Readonly<Partial<Record<Goal, number>>>;
  readonly tools: SearchTools;
}

/** The search for the least of one weighted sum. */
class GoalSearch {
  readonly #plan: GrowingPlan;
  readonly #settling: Settling;

  constructor(plan: GrowingPlan, settling: Settling) {
    this.#plan = plan;
    this.#settling = settling;
  }

  /** Makes the plan as good as can be. Returns what no plan is below; it is reached when the plan is proven least. */
  search(): number {
    const easy = this.#easyBound();
    if (this.#reached <= easy) return easy;
    const relaxed = this.#relax();
    const lowest = relaxed === null ? easy : Math.max(easy, this.#wholeAtLeast(relaxed.value));
    if (this.#reached <= lowest) return lowest;
    if (this.#hasManyStraights()) this.#dive();
    if (this.#reached <= lowest) return lowest;
    const isSolved = this.#solveWhole(this.#program());
    if (this.#reached <= lowest || relaxed === null) return lowest;
    // Nothing was left out where there is no straight stock, and a program without gap is closed as it stands.
    return this.#closeGap(relaxed) || (isSolved && this.#hasNoSticks()) ? this.#reached : lowest;
  }

  get #reached(): number {
    return weighted(this.#plan.goals, this.#settling.goal);
  }

  get #secondsLeft(): number {
    const { now, untilMs } = this.#settling.tools;
    return (untilMs - now()) / 1000;
  }

  #program(isOpen?: (column: number) => boolean): MilpModel {
    return this.#plan.program(this.#settling.goal, this.#settling.held, isOpen);
  }

  /** So many that whole numbers take long to find; few are quicker without a dive. */
  #hasManyStraights(): boolean {
    return this.#plan.columns.problem.straights.length >= MANY_STRAIGHTS;
  }

  /** Takes over the plan that a dive finds, where it is better. */
  #dive(): void {
    const { goal, held, tools } = this.#settling;
    const before = this.#plan.values;
    const reached = this.#reached;
    const relaxed = (program: MilpModel) => {
      if (this.#secondsLeft <= 0) return null;
      const answer = tools.solveMilp(program, { timeLimitS: this.#secondsLeft, start: null, isWhole: false });
      return answer.kind === 'optimal' ? answer : null;
    };
    const values = dive(this.#plan, { goal, held, relaxed });
    const padded = () => [...before, ...new Array<number>(this.#plan.values.length - before.length).fill(0)];
    if (values !== null && this.#plan.accept(values, held) && this.#reached > reached)
      this.#plan.accept(padded(), held);
  }

  #hasNoSticks(): boolean {
    return this.#plan.columns.problem.straightRows.length === 0;
  }

  /** Sums of plans are multiples of the step, so a bound may be taken up to the next one. */
  #wholeAtLeast(bound: number): number {
    const { step } = this.#settling.goal;
    return Math.ceil(bound / step - 1e-6) * step + 0;
  }

  /** Nothing is negative but welds. */
  #easyBound(): number {
    return this.#settling.goal.weights.welds === 0 ? 0 : 0 - jointsAtMost(this.#plan.model);
  }

  /** The least without whole numbers over all ways of cutting, and the prices there; null when it could not be had. */
  #relax(): { readonly value: number; readonly rowPrices: readonly number[] } | null {
    const { goal, tools } = this.#settling;
    // Half of the time is for a bound, and half for a plan.
    const untilMs = tools.now() + 500 * this.#secondsLeft;
    while (tools.now() < untilMs) {
      const timeLimitS = (untilMs - tools.now()) / 1000;
      const answer = tools.solveMilp(this.#program(), { timeLimitS, start: null, isWhole: false });
      if (answer.kind !== 'optimal') return null;
      const { bound: value, rowPrices } = answer;
      const wanted = { goal, rowPrices, below: -PRICE_NOISE * goal.step, limit: 'best' } as const;
      const { sticks, isComplete } = sticksWorth(this.#plan.columns, this.#plan.model, wanted);
      if (this.#plan.add(sticks) === 0) return isComplete ? { value, rowPrices } : null;
    }
    return null;
  }

  /** Whether the program was solved to its end. The plan takes over what is better. */
  #solveWhole(program: MilpModel): boolean {
    if (this.#secondsLeft <= 0) return false;
    const { held, tools } = this.#settling;
    const before = this.#plan.values;
    const reached = this.#reached;
    const answer = tools.solveMilp(program, { timeLimitS: this.#secondsLeft, start: before, isWhole: true });
    if (answer.kind === 'infeasible' || answer.kind === 'failed') return false;
    if (!this.#plan.accept(answer.values, held)) return false;
    if (this.#reached > reached) this.#plan.accept(before, held);
    return answer.kind === 'optimal';
  }

  /** Whether nothing better is left: over every way that a better plan could have. */
  #closeGap({ value, rowPrices }: { readonly value: number; readonly rowPrices: readonly number[] }): boolean {
    const { goal } = this.#settling;
    const gap = this.#reached - goal.step - value + PRICE_NOISE * goal.step;
    // Tube lost is rounded way by way, and is priced without.
    const below = gap + (goal.weights.lost > 0 ? 1 : 0);
    const { sticks, isComplete } = sticksWorth(this.#plan.columns, this.#plan.model, {
      goal,
      rowPrices,
      below,
      limit: MOST_WAYS,
    });
    this.#plan.add(sticks);
    const { columns, costs } = this.#program();
    const values = this.#plan.values;
    const reduced = columns.map(({ entries }, at) =>
      entries.reduce((cost, [row, amount]) => cost - (rowPrices[row] ?? 0) * amount, costs[at] ?? 0),
    );
    const isOpen = (at: number) => (values[at] ?? 0) > 0 || (reduced[at] ?? 0) <= below;
    return this.#solveWhole(this.#program(isOpen)) && isComplete;
  }
}
