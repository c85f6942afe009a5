/** One measured figure against its goal, and how a run of measures is chosen, printed and judged. */

import process from 'node:process';
import { parseArgs } from 'node:util';

export interface Measure {
  readonly id: string;
  /** What was measured and how, for a reader who has only this line. */
  readonly what: string;
  /** Null: could not be measured here; `what` says why. */
  readonly value: number | null;
  readonly unit: string;
  readonly goal: string;
  readonly ok: boolean;
}

/** Measures that belong together because one run yields them all. */
export interface MeasureRun {
  readonly ids: readonly string[];
  readonly run: (size: RunSize) => Promise<readonly Measure[]>;
}

/** `quick` is what the test command runs; `long` is the full size. */
export type RunSize = 'quick' | 'long';

/** A measure that needs something this machine has not; it counts as short, because nothing was shown. */
export function notMeasured(id: string, goal: string, reason: string): Measure {
  return { id, what: `not measured: ${reason}`, value: null, unit: '', goal, ok: false };
}

/** The value at or below which the given part (0 to 1) of the samples lies, by nearest rank. NaN when there are none. */
export function quantile(samples: readonly number[], part: number): number {
  const sorted = [...samples].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.max(0, Math.ceil(part * sorted.length) - 1))] ?? Number.NaN;
}

function rounded(value: number | null): string {
  return value === null ? '-' : String(Number(value.toPrecision(4)));
}

/** Wide enough for the longest id, value and goal there are; a longer one only pushes its own line's rest to the right. */
const WIDTHS = [15, 18, 26, 5] as const;

function line(cells: readonly string[], last: string): string {
  return `${[...cells.map((cell, column) => cell.padEnd(WIDTHS[column] ?? 0)), last].join('  ')}\n`;
}

function row(measure: Measure, asJson: boolean): string {
  const { id, what, value, unit, goal, ok } = measure;
  if (asJson) return `${JSON.stringify({ id, what, value, unit, goal, ok })}\n`;
  return line([id, `${rounded(value)} ${unit}`.trim(), goal, ok ? 'ok' : 'SHORT'], what);
}

/** Runs the chosen measures one after another, prints each as it comes, and sets the exit code to 1 when one falls short. */
export async function runMeasures(runs: readonly MeasureRun[]): Promise<void> {
  const { values } = parseArgs({
    options: { json: { type: 'boolean' }, quick: { type: 'boolean' }, only: { type: 'string' } },
  });
  const wanted = values.only?.split(',').map((id) => id.trim());
  const isWanted = (id: string) => wanted?.some((name) => id === name || id.startsWith(`${name} `)) ?? true;
  const unknown = wanted?.filter((id) => !runs.some((run) => run.ids.includes(id))) ?? [];
  if (unknown.length > 0) {
    process.stderr.write(`No such measure: ${unknown.join(', ')}. Known: ${runs.flatMap((r) => r.ids).join(', ')}.\n`);
    process.exitCode = 2;
    return;
  }
  const size = values.quick === true ? 'quick' : 'long';
  const asJson = values.json === true;
  if (!asJson) process.stdout.write(line(['id', 'value', 'goal', ''], 'what'));
  for (const { ids, run } of runs) {
    if (!ids.some(isWanted)) continue;
    if (!asJson) process.stderr.write(`measuring ${ids.join(', ')} ...\n`);
    const found = await run(size).catch((error: unknown) =>
      ids.map((id) => notMeasured(id, '', error instanceof Error ? (error.stack ?? error.message) : String(error))),
    );
    // At once: a run of an hour must not keep what it knows to itself until its end.
    for (const measure of found.filter(({ id }) => isWanted(id))) {
      process.stdout.write(row(measure, asJson));
      if (!measure.ok) process.exitCode = 1;
    }
  }
}

/** A measure in milliseconds that is to stay below a goal. */
export function within(goalMs: number, measured: Pick<Measure, 'id' | 'what'> & { readonly value: number }): Measure {
  return { ...measured, unit: 'ms', goal: `< ${goalMs.toFixed(1)}`, ok: measured.value < goalMs };
}
