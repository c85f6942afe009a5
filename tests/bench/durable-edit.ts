/** What a durable edit costs beside the least that a durable write can cost on the same disk at the same time. */

import { closeSync, fsyncSync, mkdtempSync, openSync, rmSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { applyEdit } from '../../core/edits/apply-edit.ts';
import { type Measure, quantile, type RunSize } from '../measure.ts';
import { openBackend } from '../trust/backend-under-test.ts';
import { seededRandom } from '../trust/seeded-random.ts';
import { retypedPiece } from './typed-edit.ts';

const GOAL_RATIO = 1.4;
/** The disk is not the same from one minute to the next: the middle one of these runs counts. */
const RUNS = 5;
const WARM_UP = 20;
const PAGE_BYTES = 4096;

interface Samples {
  readonly editMs: readonly number[];
  readonly bareMs: readonly number[];
}

/** Edits and bare writes take turns, so that a busy disk is equally busy for both. */
async function takeSamples(folder: string, count: number): Promise<Samples> {
  const random = seededRandom(20_260_601);
  const backend = openBackend(join(folder, 'store'), random);
  const bare = openSync(join(folder, 'bare'), 'a');
  const page = Buffer.alloc(PAGE_BYTES, 7);
  let { header, revision } = await backend.must('createHeader', { name: 'Durable edits', from: 'demo' });
  const editMs: number[] = [];
  const bareMs: number[] = [];
  for (let turn = 0; turn < count + WARM_UP; turn += 1) {
    const bareStart = performance.now();
    writeSync(bare, page);
    fsyncSync(bare);
    const bareEnd = performance.now();
    const stepId = `durable-${String(turn).padStart(6, '0')}`;
    const edit = retypedPiece(header, turn);
    const next = applyEdit(header, edit);
    if (!next.ok) throw new Error(JSON.stringify(next.problems));
    const editStart = performance.now();
    const steps = [{ action: 'do' as const, stepId, edit }];
    ({ revision } = await backend.must('commitSteps', { headerId: header.id, baseRevision: revision, steps }));
    const editEnd = performance.now();
    header = next.value.header;
    if (turn < WARM_UP) continue;
    bareMs.push(bareEnd - bareStart);
    editMs.push(editEnd - editStart);
  }
  closeSync(bare);
  await backend.close();
  return { editMs, bareMs };
}

interface RunOfEdits {
  readonly edit95: number;
  readonly bare95: number;
}

async function oneRun(count: number): Promise<RunOfEdits> {
  const folder = mkdtempSync(join(tmpdir(), 'evenrun-p6-'));
  try {
    const { editMs, bareMs } = await takeSamples(folder, count);
    return { edit95: quantile(editMs, 0.95), bare95: quantile(bareMs, 0.95) };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

export async function measureDurableEdit(size: RunSize): Promise<readonly Measure[]> {
  const count = size === 'long' ? 2000 : 300;
  const runs: RunOfEdits[] = [];
  for (let run = 0; run < RUNS; run += 1) runs.push(await oneRun(count));
  const ratio = ({ edit95, bare95 }: RunOfEdits) => edit95 / bare95;
  const value = quantile(runs.map(ratio), 0.5);
  const each = runs.map(
    (run) => `${run.edit95.toFixed(2)} ms against ${run.bare95.toFixed(2)} (${ratio(run).toFixed(2)})`,
  );
  const what =
    'durable edit through the dispatcher against a bare 4 KiB append and fsync in turns on the same disk, 95th ' +
    `percentiles of ${count}, median of ${RUNS} runs: ${each.join(', ')}`;
  return [{ id: 'P6', what, value, unit: 'x', goal: `<= ${GOAL_RATIO}`, ok: value <= GOAL_RATIO }];
}
