/** J1 and J2: what a step writes, what it takes on disk for good, and what a long journal costs when it is opened. */

import { mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { applyEdit } from '../../core/edits/apply-edit.ts';
import type { Header } from '../../core/header/header.ts';
import { type Measure, quantile, type RunSize } from '../measure.ts';
import { openBackend, type TestBackend } from '../trust/backend-under-test.ts';
import { seededRandom } from '../trust/seeded-random.ts';
import { retypedPiece } from './typed-edit.ts';

const GOAL_PAGES = 2;
const GOAL_OPEN_MS = 60;
/** A page in the log has a header of 24 bytes (SQLite, "WAL-mode File Format", section 4.1). */
const LOGGED_PAGE_BYTES = 4096 + 24;
const STEPS_A_REQUEST = 100;
const OPENINGS = 9;

interface Work {
  readonly header: Header;
  readonly revision: number;
}

/** The next so many edits, in one request. */
async function commit(backend: TestBackend, { header, revision }: Work, count: number): Promise<Work> {
  let now = header;
  const steps = Array.from({ length: count }, (_, index) => {
    const turn = revision + index;
    const edit = retypedPiece(now, turn);
    const next = applyEdit(now, edit);
    if (!next.ok) throw new Error(JSON.stringify(next.problems));
    now = next.value.header;
    return { action: 'do' as const, stepId: `journal-${String(turn).padStart(6, '0')}`, edit };
  });
  const reply = await backend.must('commitSteps', { headerId: header.id, baseRevision: revision, steps });
  return { header: now, revision: reply.revision };
}

/** Pages by which the log grows with each step. It is begun anew with every opening, long before SQLite would turn it over. */
async function pagesWritten(folder: string, count: number): Promise<readonly number[]> {
  const pages: number[] = [];
  let work: Work | null = null;
  while (pages.length < count) {
    const backend = openBackend(folder, seededRandom(41 + pages.length));
    await backend.must('start', {});
    work ??= await backend.must('createHeader', { name: 'Pages', from: 'demo' });
    const logBytes = () => statSync(join(folder, 'evenrun.sqlite-wal')).size;
    for (let step = 0; step < 200; step += 1) {
      const before = logBytes();
      work = await commit(backend, work, 1);
      pages.push((logBytes() - before) / LOGGED_PAGE_BYTES);
    }
    await backend.close();
  }
  return pages;
}

interface LongJournal {
  readonly bytesAnEdit: number;
  readonly openMs: number;
  readonly bareMs: number;
}

async function longJournal(folder: string, edits: number): Promise<LongJournal> {
  const file = join(folder, 'evenrun.sqlite');
  const backend = openBackend(folder, seededRandom(42));
  let work: Work = await backend.must('createHeader', { name: 'Long', from: 'demo' });
  await backend.close();
  const bytesBefore = statSync(file).size;
  const writer = openBackend(folder, seededRandom(43));
  for (let done = 0; done < edits; done += STEPS_A_REQUEST) work = await commit(writer, work, STEPS_A_REQUEST);
  await writer.close();
  const bytesAnEdit = (statSync(file).size - bytesBefore) / edits;
  const reader = openBackend(folder, seededRandom(44));
  await reader.must('start', {});
  const openMs: number[] = [];
  const bareMs: number[] = [];
  for (let opening = 0; opening < OPENINGS; opening += 1) {
    const start = performance.now();
    await reader.must('openHeader', { headerId: work.header.id });
    const opened = performance.now();
    readFileSync(file);
    openMs.push(opened - start);
    bareMs.push(performance.now() - opened);
  }
  await reader.close();
  return { bytesAnEdit, openMs: quantile(openMs, 0.5), bareMs: quantile(bareMs, 0.5) };
}

export async function measureJournal(size: RunSize): Promise<readonly Measure[]> {
  const root = mkdtempSync(join(tmpdir(), 'evenrun-journal-'));
  try {
    const pages = await pagesWritten(join(root, 'pages'), size === 'long' ? 2000 : 400);
    const median = quantile(pages, 0.5);
    const p95 = quantile(pages, 0.95);
    const written = `pages that a step writes to the log, median of ${pages.length}; 95th percentile ${p95}`;
    const edits = size === 'long' ? 10_000 : 2000;
    const { bytesAnEdit, openMs, bareMs } = await longJournal(join(root, 'long'), edits);
    const more = openMs - bareMs;
    const kept = `bytes on disk for each of ${edits} edits of one header, snapshots included`;
    const opened =
      `opening that header with every link of its journal looked at, ${openMs.toFixed(1)} ms, less a bare read of the ` +
      `file, ${bareMs.toFixed(1)} ms; medians of ${OPENINGS}`;
    return [
      { id: 'J1', what: written, value: median, unit: 'pages', goal: `<= ${GOAL_PAGES}`, ok: median <= GOAL_PAGES },
      { id: 'J2', what: kept, value: bytesAnEdit, unit: 'bytes', goal: 'stated', ok: true },
      { id: 'J2 open', what: opened, value: more, unit: 'ms', goal: `<= ${GOAL_OPEN_MS}`, ok: more <= GOAL_OPEN_MS },
    ];
  } finally {
    rmSync(root, { recursive: true });
  }
}
