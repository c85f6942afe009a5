/** HiGHS as the solver that cut plans are handed: the model passed as sparse columns, and its answers in the plan's words. */

import type { Highs, ModelData } from 'highs';
import type { MilpAnswer, MilpAsk, MilpModel, SolveMilp } from '../../core/index.ts';

/** How far an answer may be from its bound: costs are whole numbers, so half of one proves the least. */
const GAP = 0.5;
/** A day; the solver takes no endless time. */
const LONGEST_S = 86_400;
/** A value this near to a whole number is that number. */
const WHOLE = 1e-6;

/**
 * A solver over a loaded HiGHS, without presolve: these programs are small and tight, and are solved up to a hundred times
 * faster as they are than rewritten first. It also keeps clear of a known fault, by which presolve calls some programs
 * infeasible that are not. What the solver throws is `failed`.
 */
export function highsMilp(highs: Highs): SolveMilp {
  return (model, ask) => solveOnce(highs, model, ask);
}

function solveOnce(highs: Highs, model: MilpModel, ask: MilpAsk): MilpAnswer {
  try {
    return highs.withModel(dataOf(model, ask), (solver) => {
      solver.options.set({
        output_flag: false,
        presolve: 'off',
        time_limit: Math.min(LONGEST_S, Math.max(0.01, ask.timeLimitS)),
        mip_rel_gap: 0,
        mip_abs_gap: GAP,
        mip_feasibility_tolerance: WHOLE,
      });
      if (ask.start !== null) solver.setSolution({ colValue: Float64Array.from(ask.start) });
      solver.run();
      return answerOf(highs, solver, ask);
    });
  } catch {
    // A solver that breaks off has no answer; the plan goes on with the best that it has.
    return { kind: 'failed' };
  }
}

type Solver = ReturnType<Highs['createModel']>;

function answerOf({ constants: { modelStatus } }: Highs, solver: Solver, { start, isWhole }: MilpAsk): MilpAnswer {
  const status = solver.getModelStatus();
  if (status === modelStatus.infeasible || status === modelStatus.unboundedOrInfeasible) return { kind: 'infeasible' };
  const isOptimal = status === modelStatus.optimal;
  if (!isOptimal && status !== modelStatus.timeLimit) return { kind: 'failed' };
  const { colValue, rowDual } = solver.getSolution();
  const bound = Number(solver.info.get(isWhole ? 'mip_dual_bound' : 'objective_function_value'));
  const hasAnswer = Number(solver.info.get('primal_solution_status')) === 2;
  if (!hasAnswer && start === null) return { kind: 'failed' };
  return {
    kind: isOptimal ? 'optimal' : 'limit',
    values: hasAnswer ? Array.from(colValue) : (start ?? []),
    bound,
    rowPrices: isWhole ? [] : Array.from(rowDual),
  };
}

function dataOf({ columns, rows, costs }: MilpModel, { isWhole }: MilpAsk): ModelData {
  const starts = new Int32Array(columns.length + 1);
  columns.forEach(({ entries }, at) => {
    starts[at + 1] = (starts[at] ?? 0) + entries.length;
  });
  const entries = columns.flatMap((column) => column.entries);
  const data: ModelData = {
    numCols: columns.length,
    numRows: rows.length,
    colCost: Float64Array.from(costs),
    colLower: new Float64Array(columns.length),
    colUpper: Float64Array.from(columns, ({ high }) => high),
    rowLower: Float64Array.from(rows, ({ low }) => low),
    rowUpper: Float64Array.from(rows, ({ high }) => high),
    matrix: {
      format: 'csc',
      numRows: rows.length,
      numCols: columns.length,
      starts,
      indices: Int32Array.from(entries, ([row]) => row),
      values: Float64Array.from(entries, ([, value]) => value),
    },
  };
  return isWhole ? { ...data, integrality: new Int32Array(columns.length).fill(1) } : data;
}
