/** P7c: an archive of finished headers is exported and brought back elsewhere, and is the same to the byte. */

import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { finishedLine } from '../finished-lines.ts';
import type { Measure, RunSize } from '../measure.ts';
import { openBackend, type TestBackend } from '../trust/backend-under-test.ts';
import { seededRandom } from '../trust/seeded-random.ts';

const HEADERS = { quick: 150, long: 10_000 } as const;
/** As the page sends them. */
const LINES_A_CALL = 50;
const GOAL_BYTES = 20_000;

async function bringIn(backend: TestBackend, lines: readonly string[], from = 0): Promise<number> {
  let refused = 0;
  for (let at = 0; at < lines.length; at += LINES_A_CALL) {
    const part = lines.slice(at, at + LINES_A_CALL).map((text, place) => ({ line: from + at + place + 1, text }));
    const answer = await backend.must('bringBackFinished', { lines: part });
    refused += answer.lines.filter(({ kind }) => kind !== 'brought').length;
  }
  return refused;
}

interface Exported {
  readonly text: string;
  /** How often the page could have stopped it. */
  readonly pieces: number;
  readonly longestPieceBytes: number;
}

async function exportAll(backend: TestBackend): Promise<Exported> {
  const { workId } = await backend.must('beginExport', { headerIds: null });
  const pieces: Buffer[] = [];
  for (;;) {
    const state = await backend.must('continueWork', { workId: workId ?? '', piece: null });
    if (state.state === 'done') break;
    pieces.push(Buffer.from(state.piece ?? '', 'base64'));
  }
  const longestPieceBytes = Math.max(...pieces.map(({ length }) => length));
  return { text: Buffer.concat(pieces).toString('utf8'), pieces: pieces.length, longestPieceBytes };
}

function bareMs(folder: string, text: string): number {
  const started = performance.now();
  writeFileSync(join(folder, 'bare'), text);
  readFileSync(join(folder, 'bare'), 'utf8');
  return performance.now() - started;
}

async function fill(backend: TestBackend, count: number): Promise<void> {
  for (let at = 0; at < count; at += LINES_A_CALL) {
    const lines = Array.from({ length: Math.min(LINES_A_CALL, count - at) }, (_, place) => finishedLine(at + place));
    if ((await bringIn(backend, lines, at)) > 0) throw new Error('a made line was not taken');
  }
}

export async function measureFinishedFiles(size: RunSize): Promise<readonly Measure[]> {
  const count = HEADERS[size];
  const folders = ['here', 'there'].map((name) => mkdtempSync(join(tmpdir(), `evenrun-finished-${name}-`)));
  const [hereFolder = '', thereFolder = ''] = folders;
  try {
    const here = openBackend(hereFolder, seededRandom(71));
    await fill(here, count);
    const started = performance.now();
    const out = await exportAll(here);
    const outMs = performance.now() - started;
    const lines = out.text.trimEnd().split('\n');
    const there = openBackend(thereFolder, seededRandom(72));
    await there.must('start', {});
    const began = performance.now();
    const refused = await bringIn(there, lines);
    const inMs = performance.now() - began;
    const back = await exportAll(there);
    await here.close();
    await there.close();
    const again = back.text.trimEnd().split('\n');
    const unlike = lines.filter((line, at) => line !== again[at]).length + Math.abs(again.length - count);
    const bare = bareMs(thereFolder, out.text);
    const diskBytes = statSync(join(thereFolder, 'evenrun.sqlite')).size / count;
    const lineBytes = Buffer.byteLength(out.text) / count;
    return [
      sameMeasure(count, { refused, unlike }),
      bytesMeasure('P7c file', 'a finished header of 8 primaries in an exported file', lineBytes),
      bytesMeasure('P7c disk', 'the same in the database that it was brought back into', diskBytes),
      timeMeasure({ count, outMs, inMs, bare, ...out }),
    ];
  } finally {
    for (const folder of folders) rmSync(folder, { recursive: true, force: true });
  }
}

function sameMeasure(count: number, found: { readonly refused: number; readonly unlike: number }): Measure {
  const value = found.refused + found.unlike;
  const what = `of ${count} finished headers exported and brought back, those refused (${found.refused}) or not the same to the byte with their checksum (${found.unlike})`;
  return { id: 'P7c', what, value, unit: '', goal: '0', ok: value === 0 };
}

function bytesMeasure(id: string, what: string, value: number): Measure {
  return {
    id,
    what: `bytes of ${what}, without pictures`,
    value,
    unit: 'B',
    goal: `< ${GOAL_BYTES}`,
    ok: value < GOAL_BYTES,
  };
}

interface Times extends Omit<Exported, 'text'> {
  readonly count: number;
  readonly outMs: number;
  readonly inMs: number;
  readonly bare: number;
}

/** No goal but that it can be stopped: what a person waits for depends on the machine. */
function timeMeasure({ count, outMs, inMs, bare, pieces, longestPieceBytes }: Times): Measure {
  const ms = (value: number) => (value / count).toFixed(2);
  const what = `times as long as writing and reading as many bytes bare; exporting took ${ms(outMs)} ms a header in ${pieces} pieces of at most ${Math.ceil(longestPieceBytes / 1000)} kB, bringing back ${ms(inMs)} ms`;
  const ok = longestPieceBytes < 2_000_000;
  return { id: 'P7c time', what, value: (outMs + inMs) / bare, unit: 'x', goal: 'pieces < 2 MB', ok };
}
