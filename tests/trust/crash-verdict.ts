/** Judges a data folder after its writer died: what was acknowledged must be there, wholly, by two readers. */

import { openBackend } from './backend-under-test.ts';
import { digestOf } from './canonical.ts';
import { type DiskReading, type HeaderOnDisk, readIndependently } from './independent-reader.ts';
import type { ChildLine } from './protocol.ts';
import { seededRandom } from './seeded-random.ts';

export interface Verdict {
  /** Steps that the child was told are saved. */
  readonly acked: number;
  readonly lost: readonly string[];
  readonly torn: readonly string[];
  readonly corrupt: readonly string[];
}

/** What a crash test works on: the child that is ended, and who judges what it left. */
export interface CrashSubject {
  readonly child: 'editing-child' | 'shelf-child';
  readonly judge: (folder: string, lines: readonly ChildLine[]) => Promise<Verdict>;
}

/** What the child knew at its end: the steps that must be there, and the documents that may be. */
interface Expected {
  readonly headerId: string | null;
  readonly ackedStepIds: readonly string[];
  readonly ackedRevision: number;
  /** Digests that the document may have: after the last acknowledgement, or after the steps under way. */
  readonly digests: readonly string[];
}

function expectedFrom(lines: readonly ChildLine[]): Expected {
  let headerId: string | null = null;
  let ackedRevision = 0;
  const ackedStepIds: string[] = [];
  let settled: string[] = [];
  let pending: string[] = [];
  for (const line of lines) {
    if (line.kind === 'opened') {
      headerId = line.headerId;
      ackedRevision = line.revision;
      settled = [line.digest];
    } else if (line.kind === 'sent') pending = [line.digest];
    else if (line.kind === 'acked') {
      ackedStepIds.push(...line.stepIds);
      ackedRevision = line.revision;
      settled = pending;
      pending = [];
    }
  }
  return { headerId, ackedStepIds, ackedRevision, digests: [...settled, ...pending] };
}

/** Opens the folder with the program itself, as a user's next start would, and compares with the other reader. */
async function reopenedFaults(folder: string, headers: readonly HeaderOnDisk[]): Promise<readonly string[]> {
  const backend = openBackend(folder, seededRandom(1));
  try {
    const start = await backend.must('start', {});
    if (start.state !== 'ready') return [`the program cannot open it: ${JSON.stringify(start.problem)}`];
    const faults: string[] = [];
    for (const { id, revision, digest } of headers) {
      const opened = await backend.call('openHeader', { headerId: id });
      if (!opened.ok) faults.push(`the program cannot open ${id}: ${JSON.stringify(opened.problems)}`);
      else if (opened.value.damage !== null) faults.push(`damaged: ${JSON.stringify(opened.value.damage)}`);
      else if (opened.value.revision !== revision)
        faults.push(`revision ${opened.value.revision}, on disk ${revision}`);
      else if (digestOf(opened.value.header) !== digest) faults.push('the two readers see different documents');
    }
    return faults;
  } finally {
    await backend.close();
  }
}

function lossesOf(expected: Expected, reading: DiskReading): { readonly lost: string[]; readonly torn: string[] } {
  if (expected.headerId === null) return { lost: [], torn: [] };
  const found = reading.headers.find(({ id }) => id === expected.headerId);
  if (found === undefined) return { lost: [`header ${expected.headerId}`, ...expected.ackedStepIds], torn: [] };
  const there = new Set(found.stepIds);
  const lost = expected.ackedStepIds.filter((stepId) => !there.has(stepId));
  if (lost.length === 0 && found.revision < expected.ackedRevision) lost.push(`revision ${expected.ackedRevision}`);
  const isWhole = lost.length > 0 || expected.digests.includes(found.digest);
  return { lost, torn: isWhole ? [] : ['the document is neither that before nor that after the steps under way'] };
}

/** For a child that was the only writer, so that the document itself can be foretold. */
async function judgeCrash(folder: string, lines: readonly ChildLine[]): Promise<Verdict> {
  const expected = expectedFrom(lines);
  const reading = readIndependently(folder);
  const { lost, torn } = lossesOf(expected, reading);
  // A file that the independent reader cannot read is given to the program too: it must say so and not fall over.
  const reopened = await reopenedFaults(folder, reading.headers);
  return {
    acked: expected.ackedStepIds.length,
    lost,
    torn: [...torn, ...reading.torn],
    corrupt: [...reading.corrupt, ...reopened],
  };
}

export const HEADER_SUBJECT: CrashSubject = { child: 'editing-child', judge: judgeCrash };

/** Sums of many verdicts, as a table shows them. */
export interface Tally {
  readonly runs: number;
  readonly acked: number;
  readonly lost: number;
  readonly runsWithLoss: number;
  readonly torn: number;
  readonly corrupt: number;
  /** The first few faults, in words. */
  readonly examples: readonly string[];
}

export const EMPTY_TALLY: Tally = { runs: 0, acked: 0, lost: 0, runsWithLoss: 0, torn: 0, corrupt: 0, examples: [] };

export function addVerdict(tally: Tally, verdict: Verdict, where: string): Tally {
  const faults = [...verdict.corrupt, ...verdict.torn, ...verdict.lost.slice(0, 1).map((id) => `lost ${id}`)];
  return {
    runs: tally.runs + 1,
    acked: tally.acked + verdict.acked,
    lost: tally.lost + verdict.lost.length,
    runsWithLoss: tally.runsWithLoss + (verdict.lost.length > 0 ? 1 : 0),
    torn: tally.torn + verdict.torn.length,
    corrupt: tally.corrupt + verdict.corrupt.length,
    examples: [...tally.examples, ...faults.map((fault) => `${where}: ${fault}`)].slice(0, 8),
  };
}

export function faultsOf(tally: Tally): number {
  return tally.lost + tally.torn + tally.corrupt;
}
