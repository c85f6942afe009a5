/** Crank degrees between one firing and the next: even, or as they are typed for an engine that does not fire evenly. */

import { CYCLE_DEG, type Engine, INTERVAL_SUM_SLACK_DEG } from '../header/engine.ts';
import type { HeaderProblem } from '../header/header-problem.ts';
import { quoted } from '../header/schema-problems.ts';
import { failure, type Result, success } from '../result.ts';

type Firing = Pick<Engine, 'firingOrder' | 'firingIntervalsDeg'>;

/** From each cylinder of the order to the next, and from the last round to the first. */
export function firingIntervalsDeg({ firingOrder, firingIntervalsDeg: typed }: Firing): readonly number[] {
  return typed ?? firingOrder.map(() => CYCLE_DEG / firingOrder.length);
}

/** When a cylinder of the order fires, in crank degrees from the first: 0 to below 720. */
export function firesDeg(engine: Firing, cylinder: number): number {
  const before = firingIntervalsDeg(engine).slice(0, engine.firingOrder.indexOf(cylinder));
  return before.reduce((sum, interval) => sum + interval, 0);
}

/** The engine with another firing order; `intervalsDeg` null: it fires evenly. */
export function withFiring(engine: Engine, order: readonly number[], intervalsDeg: readonly number[] | null): Engine {
  const { firingIntervalsDeg: _, ...rest } = { ...engine, firingOrder: order };
  return intervalsDeg === null ? rest : { ...rest, firingIntervalsDeg: intervalsDeg };
}

const EVEN = 'even';

/** `even`, or the intervals as far as they repeat: `90-150` for a six that fires 90 and 150 apart by turns. */
export function formatFiringIntervals({ firingIntervalsDeg: typed }: Firing): string {
  if (typed === undefined) return EVEN;
  const repeats = (length: number) => typed.every((interval, at) => interval === typed[at % length]);
  const lengths = typed.map((_, at) => at + 1).filter((length) => typed.length % length === 0);
  const length = lengths.find(repeats) ?? typed.length;
  return typed.slice(0, length).join('-');
}

/**
 * Reads `315-405`, `90 150` or `even` for a firing order. A shorter list goes round as often as it takes. Null: they are all
 * alike, so the engine fires evenly. What is missing, or what they add up to, is said.
 */
export function parseFiringIntervals(
  text: string,
  order: readonly number[],
): Result<readonly number[] | null, HeaderProblem> {
  const parts = text
    .trim()
    .replaceAll('\u00b0', ' ')
    .split(/[\s,;–—-]+/u)
    .filter((part) => part !== '');
  if (parts.length === 0 || text.trim().toLowerCase() === EVEN) return success(null);
  const unread = parts.find((part) => !/^\d{1,3}(?:\.\d{1,9})?$/.test(part));
  if (unread !== undefined) return refused('crank degrees from each firing to the next, as in 315-405', quoted(unread));
  const typed = parts.map(Number);
  const { length } = order;
  if (typed.length > length || length % typed.length !== 0) {
    const found = `${typed.length} for ${length} ${length === 1 ? 'cylinder' : 'cylinders'}`;
    return refused('one for each cylinder of the firing order, the last back to the first', found);
  }
  const intervals = order.map((_, at) => typed[at % typed.length] ?? 0);
  const sum = intervals.reduce((all, interval) => all + interval, 0);
  if (Math.abs(sum - CYCLE_DEG) > INTERVAL_SUM_SLACK_DEG) {
    return refused('degrees that add up to 720, two turns of the crank', `${Number(sum.toFixed(2))} in all`);
  }
  return success(new Set(intervals).size === 1 ? null : intervals);
}

function refused(expected: string, found: string): Result<never, HeaderProblem> {
  return failure({ kind: 'invalidValue', path: ['engine', 'firingIntervalsDeg'], expected, found });
}
