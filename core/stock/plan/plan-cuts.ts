/** The cut plan: which pieces come out of which stock, the least short, then the cheapest, then with the fewest welds, then the least lost. */

import { checkPlan } from './check-plan.ts';
import { columnsOf } from './columns/columns.ts';
import { type CutPlan, compareGoals, GOALS, type GoalBound, type PlanGoals } from './cut-plan.ts';
import type { CutProblem } from './cut-problem.ts';
import { planInBatches } from './exact/plan-in-batches.ts';
import { SMALL_PIECES, smallPlan } from './exact/small-plan.ts';
import { nameAndLayOut } from './layout/name-pieces.ts';
import { type InOrder, solveInOrder } from './milp/in-order.ts';
import type { SolveMilp } from './milp/milp.ts';
import { type TubeProblem, tubeProblems } from './tube-problem.ts';

export interface PlanOptions {
  /** Without one, more than twelve pieces of a tube are planned twelve at a time, and not proven least. */
  readonly solveMilp?: SolveMilp | null;
  /** A clock, ms; needed where the time is limited. */
  readonly now?: () => number;
  /** How long the search may take, ms on that clock. */
  readonly limitMs?: number;
  /** Told after each tube, and within one after each goal: how many tubes are planned, of how many, and the best plan so far. */
  readonly report?: (progress: PlanProgress) => void;
}

export interface PlanProgress {
  readonly tubesPlanned: number;
  readonly tubes: number;
  readonly best: CutPlan;
}

/** Ways of cutting arcs that are listed; their legs have few. */
const LISTED_WAYS = 20_000;

/**
 * A plan for all pieces. Tubes of another material, OD or wall neither help nor hinder each other, so each is planned alone
 * and goals and bounds add up. The plan is checked piece by piece and cut by cut before it is given out (`checkPlan`).
 *
 * @returns never nothing: at the worst, every piece is short
 * @throws when a plan fails its check, which is a fault of the program
 */
export function planCuts(problem: CutProblem, options: PlanOptions = {}): CutPlan {
  const { solveMilp = null, now = () => 0, limitMs = Number.POSITIVE_INFINITY, report } = options;
  const tubes = tubeProblems(problem);
  const untilMs = now() + limitMs;
  const parts: CutPlan[] = [];
  tubes.forEach((tube, at) => {
    const tell = (tubesPlanned: number, part: CutPlan) =>
      report?.({
        tubesPlanned,
        tubes: tubes.length,
        best: together([...parts, part, ...tubes.slice(at + 1).map(allShort)]),
      });
    const part = planTube(tube, { solveMilp, now, untilMs, report: (best) => tell(at, best) });
    tell(at + 1, part);
    parts.push(part);
  });
  const plan = together(parts);
  const [fault] = checkPlan(problem, plan);
  if (fault !== undefined) throw new Error(`a cut plan does not hold: ${fault.kind} at ${fault.where}`);
  return plan;
}

/** The plan before anything is looked at: all pieces short, and nothing proven. */
export function unplanned(problem: CutProblem): CutPlan {
  return together(tubeProblems(problem).map(allShort));
}

interface TubeTools {
  readonly solveMilp: SolveMilp | null;
  readonly now: () => number;
  readonly untilMs: number;
  readonly report: (best: CutPlan) => void;
}

function planTube(problem: TubeProblem, { solveMilp, now, untilMs, report }: TubeTools): CutPlan {
  if (problem.bends.length + problem.straights.length <= SMALL_PIECES) {
    const { columns, chosen } = smallPlan(problem);
    return partOf({ columns, chosen, bounds: boundsAt(chosen.goals, chosen.goals), ended: 'searched' });
  }
  // Made at once, so that there is something to show; a search that is cut off may find less.
  const plain = planInBatches(problem);
  if (solveMilp === null) return plain;
  report(plain);
  const listed = columnsOf(problem, { isApart: false, limit: LISTED_WAYS, listsSticks: false });
  const found = solveInOrder(listed, {
    solveMilp,
    now,
    untilMs,
    report: (best) => report(betterOf(plain, partOf(best))),
  });
  // Where ways of cutting were left out, what is least among the others proves nothing.
  const proven = listed.isComplete
    ? found
    : { ...found, bounds: boundsAt(found.chosen.goals, easyBounds(problem)), ended: 'gaveUp' as const };
  return betterOf(plain, partOf(proven));
}

function partOf({ columns, chosen, bounds, ended }: InOrder): CutPlan {
  return { ...nameAndLayOut(columns, chosen), goals: chosen.goals, bounds, ended };
}

/** Which of the two is better; why the search ended is told of either. */
function betterOf(plain: CutPlan, searched: CutPlan): CutPlan {
  return compareGoals(plain.goals, searched.goals) < 0 ? { ...plain, ended: searched.ended } : searched;
}

/** What a tube that is not planned yet has to show. */
function allShort({ bends, straights }: TubeProblem): CutPlan {
  const short = [...bends, ...straights].map(({ id }) => id);
  const goals = { shortage: short.length, cost: 0, welds: 0, lost: 0 };
  return { opened: [], short, goals, bounds: boundsAt(goals, easyBounds({ straights })), ended: 'stopped' };
}

/** What is sure without looking: nothing is negative but welds, and a straight stays on one bend at most. */
function easyBounds({ straights }: Pick<TubeProblem, 'straights'>): PlanGoals {
  return { shortage: 0, cost: 0, welds: 0 - straights.length, lost: 0 };
}

function boundsAt(reached: PlanGoals, bound: PlanGoals): readonly GoalBound[] {
  return GOALS.map((goal) => ({ goal, reached: reached[goal], bound: bound[goal] }));
}

const ENDINGS: readonly CutPlan['ended'][] = ['searched', 'gaveUp', 'timeUp', 'stopped'];

function together(parts: readonly CutPlan[]): CutPlan {
  const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
  const goal = (name: keyof PlanGoals) => sum(parts.map(({ goals }) => goals[name]));
  return {
    opened: parts.flatMap(({ opened }) => opened),
    short: parts.flatMap(({ short }) => short),
    goals: { shortage: goal('shortage'), cost: goal('cost'), welds: goal('welds'), lost: goal('lost') },
    bounds: GOALS.map((name) => ({
      goal: name,
      reached: goal(name),
      bound: sum(parts.flatMap(({ bounds }) => bounds.filter((one) => one.goal === name).map(({ bound }) => bound))),
    })),
    ended: ENDINGS[Math.max(0, ...parts.map(({ ended }) => ENDINGS.indexOf(ended)))] ?? 'searched',
  };
}
