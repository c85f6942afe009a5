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

function tableRows(measures: readonly Measure[]): readonly string[] {
  const cells = measures.map((m) => [m.id, `${rounded(m.value)} ${m.unit}`.trim(), m.goal, m.ok ? 'ok' : 'SHORT']);
  const heads = ['id', 'value', 'goal', ''];
  const widths = heads.map((head, column) => Math.max(head.length, ...cells.map((row) => (row[column] ?? '').length)));
  const line = (row: readonly string[], last: string) =>
    [...row.map((cell, column) => cell.padEnd(widths[column] ?? 0)), last].join('  ');
  return [line(heads, 'what'), ...cells.map((row, index) => line(row, measures[index]?.what ?? ''))];
}

function report(measures: readonly Measure[], asJson: boolean): string {
  if (!asJson) return `${tableRows(measures).join('\n')}\n`;
  return measures
    .map(({ id, what, value, unit, goal, ok }) => `${JSON.stringify({ id, what, value, unit, goal, ok })}\n`)
    .join('');
}

/** Runs the chosen measures one after another, prints them, and sets the exit code to 1 when one falls short. */
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
  const measures: Measure[] = [];
  for (const { ids, run } of runs) {
    if (!ids.some(isWanted)) continue;
    if (values.json !== true) process.stderr.write(`measuring ${ids.join(', ')} ...\n`);
    const found = await run(size).catch((error: unknown) =>
      ids.map((id) => notMeasured(id, '', error instanceof Error ? (error.stack ?? error.message) : String(error))),
    );
    measures.push(...found.filter(({ id }) => isWanted(id)));
  }
  process.stdout.write(report(measures, values.json === true));
  if (measures.some((measure) => !measure.ok)) process.exitCode = 1;
}
