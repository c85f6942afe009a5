/** How many of the published packing problems are cut from as few bars as is known to be least. */

import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { isProvenLeast } from '../../core/stock/plan/cut-plan.ts';
import type { CutProblem } from '../../core/stock/plan/cut-problem.ts';
import { planCuts } from '../../core/stock/plan/plan-cuts.ts';
import { highsMilp } from '../../electron/solver/highs-milp.ts';
import { packingProblem } from '../core/stock/plan/made-problems.ts';
import type { Measure, RunSize } from '../measure.ts';
import { ROOT } from '../source-files.ts';

/** Beside the project; it is read where it lies. */
const FILE = join(ROOT, '..', 'shared', 'datasets', 'binpacking.json');
const LIMIT_MS = 60_000;

interface Instance {
  readonly name: string;
  readonly capacity: number;
  readonly n: number;
  readonly items: readonly number[];
  readonly optimal: number;
}

interface Row {
  readonly name: string;
  readonly bars: number;
  readonly optimal: number;
  readonly isProven: boolean;
}

/** Quick runs leave out those of more than 120 pieces. */
export async function measurePacking(size: RunSize): Promise<readonly Measure[]> {
  const goal = 'all proven ones equal, none more than one above';
  if (!existsSync(FILE)) {
    return [
      {
        id: 'C5',
        what: 'packing problems: their folder is not here, so none was tried',
        value: 0,
        unit: '',
        goal,
        ok: true,
      },
    ];
  }
  const instances = (JSON.parse(readFileSync(FILE, 'utf8')) as readonly Instance[]).filter(
    ({ n }) => size === 'long' || n <= 120,
  );
  const highs = highsMilp(await createRequire(import.meta.url)('highs')());
  const rows = instances.map((instance): Row => {
    const startMs = performance.now();
    const plan = planCuts(problemOf(instance), { solveMilp: highs, now: () => performance.now(), limitMs: LIMIT_MS });
    const cost = plan.bounds.filter(({ goal: name }) => name === 'shortage' || name === 'cost');
    const row = {
      name: instance.name,
      bars: plan.opened.length,
      optimal: instance.optimal,
      isProven: isProvenLeast({ bounds: cost }),
    };
    const seconds = ((performance.now() - startMs) / 1000).toFixed(1);
    console.log(
      `  ${row.name}: ${row.bars} bars, known ${row.optimal}, ${row.isProven ? 'proven' : 'not proven'}, ${seconds} s`,
    );
    return row;
  });
  const equal = rows.filter(({ bars, optimal }) => bars === optimal).length;
  const proven = rows.filter(({ isProven }) => isProven).length;
  const ok = rows.every(({ bars, optimal, isProven }) => (isProven ? bars === optimal : bars - optimal <= 1));
  const what = `packing problems cut from the known least of bars, of ${rows.length}; ${proven} proven within ${LIMIT_MS / 1000} s`;
  return [{ id: 'C5', what, value: equal, unit: 'of them', goal, ok }];
}

function problemOf({ capacity, items }: Instance): CutProblem {
  return packingProblem(capacity, items);
}
