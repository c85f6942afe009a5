/** What a cut plan answers: which piece comes out of which stock, where the cuts are, and how good the plan is. */

/** The figures that a plan is judged by, the first that differs deciding. All are whole numbers, so that none is lost to rounding. */
export interface PlanGoals {
  /** Pieces that no stock is left for. */
  readonly shortage: number;
  /** Hundredths of the shop's money for fresh stock that is opened. */
  readonly cost: number;
  /** Joints that need no weld, counted below zero: the fewer welds, the smaller. */
  readonly welds: number;
  /** Tube lost of the stock that is opened, in hundredths of a millimetre: cuts, and what is left but not worth keeping. */
  readonly lost: number;
}

export const GOALS = ['shortage', 'cost', 'welds', 'lost'] as const satisfies readonly (keyof PlanGoals)[];
export type Goal = (typeof GOALS)[number];

/**
 * One stretch of an opened stock item, from its first end to its other end along the centreline. A piece of the plan may be
 * a bend with one or two straights still on it: they follow each other without a cut.
 */
export type Stretch = {
  /** From the stock item's first end, mm along the centreline. */
  readonly fromMm: number;
  readonly toMm: number;
} & (
  | { readonly kind: 'piece'; readonly pieceId: string }
  /** What saw and facing take. */
  | { readonly kind: 'cut' }
  /** Goes back on the shelf. */
  | { readonly kind: 'remnant' }
  | { readonly kind: 'scrap' }
);

/** One opened stock item. */
export interface CutStock {
  readonly rowId: string;
  /** Which of the pieces of that row, from 1. */
  readonly copy: number;
  readonly stretches: readonly Stretch[];
}

/** How far the proof went: a goal whose bound is reached is proven, given the goals before it. */
export interface GoalBound {
  readonly goal: Goal;
  readonly reached: number;
  /** No plan that is as good in the goals before can be lower than this. */
  readonly bound: number;
}

export interface CutPlan {
  readonly opened: readonly CutStock[];
  /** Ids of the pieces that no stock is left for. */
  readonly short: readonly string[];
  readonly goals: PlanGoals;
  /** One entry a goal, in order. */
  readonly bounds: readonly GoalBound[];
  /**
   * Why the search ended: all was looked at; there was more to look at than it can, or no solver to do it; the time was up;
   * or it was stopped. All but the first give the best found so far.
   */
  readonly ended: 'searched' | 'gaveUp' | 'timeUp' | 'stopped';
}

/** Whether no plan can be better: every goal has reached its bound. */
export function isProvenLeast({ bounds }: Pick<CutPlan, 'bounds'>): boolean {
  return bounds.every(({ reached, bound }) => reached <= bound);
}

export const NO_GOALS: PlanGoals = { shortage: 0, cost: 0, welds: 0, lost: 0 };

export function addGoals(a: PlanGoals, b: PlanGoals): PlanGoals {
  return {
    shortage: a.shortage + b.shortage,
    cost: a.cost + b.cost,
    welds: a.welds + b.welds,
    lost: a.lost + b.lost,
  };
}

/** Below zero when `a` is the better plan. */
export function compareGoals(a: PlanGoals, b: PlanGoals): number {
  return a.shortage - b.shortage || a.cost - b.cost || a.welds - b.welds || a.lost - b.lost;
}

/** Hundredths, as goals count money and millimetres. */
export function hundredths(value: number): number {
  return Math.round(value * 100);
}
