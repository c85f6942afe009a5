/** A mixed-integer program and who solves it: the solver is handed in, so that the domain stays free of it. */

/** Find `x` of least `sum(cost x)` with every row's sum between its limits; each `x` between 0 and its `high`. */
export interface MilpModel {
  readonly columns: readonly MilpColumn[];
  readonly rows: readonly MilpRow[];
  /** One a column. */
  readonly costs: readonly number[];
}

export interface MilpColumn {
  readonly high: number;
  readonly entries: readonly MilpEntry[];
}

/** What one unit of a column adds to a row's sum; no row twice in a column. */
export type MilpEntry = readonly [row: number, value: number];

export interface MilpRow {
  readonly low: number;
  readonly high: number;
}

export interface MilpAsk {
  readonly timeLimitS: number;
  /** A known answer to start from; null: none. */
  readonly start: readonly number[] | null;
  /** Whether every `x` must be whole. Without, the answer comes with the rows' prices. */
  readonly isWhole: boolean;
}

export type MilpAnswer =
  | {
      /** `limit`: the best when the time was up, or nothing better than the start. */
      readonly kind: 'optimal' | 'limit';
      readonly values: readonly number[];
      /** No answer costs less than this. */
      readonly bound: number;
      /** What one more of each row's limit would change the cost by; empty when `isWhole`. */
      readonly rowPrices: readonly number[];
    }
  | { readonly kind: 'infeasible' }
  /** The solver broke off. */
  | { readonly kind: 'failed' };

export type SolveMilp = (model: MilpModel, ask: MilpAsk) => MilpAnswer;
