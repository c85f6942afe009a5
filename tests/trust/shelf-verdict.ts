/**
 * Judges a shelf after its writer died: every acknowledged step is in the book, its movements add up to counts that the
 * writer foretold, and the program opens it and says the same. Node's own SQLite and plain SQL, none of the store's code.
 */

import { cpSync, existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { openBackend } from './backend-under-test.ts';
import { digestOf } from './canonical.ts';
import type { Verdict } from './crash-verdict.ts';
import { databaseFileIn } from './independent-reader.ts';
import type { ChildLine } from './protocol.ts';
import { seededRandom } from './seeded-random.ts';

interface BookOnDisk {
  readonly stepIds: readonly string[];
  /** Of the counts of rows on the shelf. */
  readonly digest: string;
  readonly corrupt: readonly string[];
  /** Steps of which a part is missing. */
  readonly torn: readonly string[];
}

const EMPTY: BookOnDisk = { stepIds: [], digest: digestOf([]), corrupt: [], torn: [] };

function readBook(db: DatabaseSync): BookOnDisk {
  const texts = (sql: string) =>
    db
      .prepare(sql)
      .all()
      .map((row) => String(Object.values(row)[0]));
  const corrupt = [
    ...texts('PRAGMA integrity_check').filter((line) => line !== 'ok'),
    ...texts('PRAGMA foreign_key_check'),
  ];
  if (texts("SELECT 1 FROM sqlite_schema WHERE name = 'movements'").length === 0) return { ...EMPTY, corrupt };
  const torn = [
    ...texts(`SELECT 'step ' || place || ' lacks movements' FROM shelf_steps AS s WHERE movement_count <>
      (SELECT count(*) FROM movements WHERE request_id = s.id)`),
    ...texts(`SELECT 'row ' || id || ' is retired and not empty' FROM stock AS s WHERE is_retired = 1
      AND (SELECT coalesce(sum(pieces), 0) FROM movements WHERE item_id = s.id) <> 0`),
    ...texts(`SELECT 'plan ' || s.place || ' is in one book only' FROM shelf_steps AS s JOIN cut_plans AS p
      ON p.step = coalesce(s.of_place, s.place) WHERE NOT EXISTS
      (SELECT 1 FROM journal WHERE header_id = p.header_id AND step_id = s.id)`),
    ...texts(`SELECT 'plan step ' || revision || ' is in one book only' FROM journal AS j
      WHERE label LIKE '%cut piece%' AND NOT EXISTS (SELECT 1 FROM shelf_steps WHERE id = j.step_id)`),
    ...texts(`SELECT 'row ' || item_id || ' is below zero' FROM movements GROUP BY item_id HAVING sum(pieces) < 0`),
  ];
  const counts = db
    .prepare(`SELECT id, coalesce((SELECT sum(pieces) FROM movements WHERE item_id = s.id), 0) AS count FROM stock AS s
      WHERE is_retired = 0 ORDER BY id`)
    .all() as unknown as { readonly id: string; readonly count: number }[];
  const digest = digestOf(counts.map(({ id, count }) => [id, count]));
  return { stepIds: texts('SELECT id FROM shelf_steps ORDER BY place'), digest, corrupt, torn };
}

/** Reads a copy, for reading would fold the log that a crash left behind into the database. */
function bookIn(folder: string): BookOnDisk {
  const file = databaseFileIn(folder);
  if (file === null) return EMPTY;
  const copy = mkdtempSync(join(tmpdir(), 'evenrun-shelf-'));
  try {
    for (const end of ['', '-wal', '-journal'])
      if (existsSync(file + end)) cpSync(file + end, join(copy, `copy.sqlite${end}`));
    const db = new DatabaseSync(join(copy, 'copy.sqlite'));
    try {
      return readBook(db);
    } finally {
      db.close();
    }
  } finally {
    rmSync(copy, { recursive: true });
  }
}

async function reopened(folder: string): Promise<{ readonly digest: string; readonly faults: readonly string[] }> {
  const backend = openBackend(folder, seededRandom(1));
  try {
    const start = await backend.must('start', {});
    if (start.state !== 'ready')
      return { digest: '', faults: [`the program cannot open it: ${JSON.stringify(start.problem)}`] };
    const { stock } = await backend.must('listStock', {});
    const counts = stock.map(({ item }) => [item.id, item.count] as const).sort(([a], [b]) => (a < b ? -1 : 1));
    return { digest: digestOf(counts), faults: stock.some((each) => each.isDoubtful) ? ['a row is doubtful'] : [] };
  } finally {
    await backend.close();
  }
}

export async function judgeShelf(folder: string, lines: readonly ChildLine[]): Promise<Verdict> {
  let settled: string | null = null;
  let pending: string | null = null;
  const acked: string[] = [];
  for (const line of lines) {
    if (line.kind === 'opened') settled = line.digest;
    else if (line.kind === 'sent') pending = line.digest;
    else if (line.kind === 'acked') {
      acked.push(...line.stepIds);
      settled = pending;
      pending = null;
    }
  }
  const book = bookIn(folder);
  const there = new Set(book.stepIds);
  const lost = acked.filter((stepId) => !there.has(stepId));
  const isForetold = settled === null || lost.length > 0 || [settled, pending].includes(book.digest);
  const now = await reopened(folder);
  return {
    acked: acked.length,
    lost,
    torn: [
      ...book.torn,
      ...(isForetold ? [] : ['the counts are neither those before nor those after the step under way']),
    ],
    corrupt: [
      ...book.corrupt,
      ...now.faults,
      ...(now.faults.length > 0 || now.digest === book.digest ? [] : ['the program and plain SQL count differently']),
    ],
  };
}
