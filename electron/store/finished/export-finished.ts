/** Writes finished headers into a file, a line each, a piece of the file at a time. */

import { failure, type Header, type Problem, type Result, success } from '../../../core/index.ts';
import type { OutgoingFile } from '../../output/outgoing-file.ts';
import { frozenIn } from '../archive/archive.ts';
import type { Connection } from '../file/connection.ts';
import { problemWith } from '../header/opened-header.ts';
import { readHeader } from '../header/read-header.ts';
import { factsOf } from '../pictures/picture-table.ts';
import type { Tables } from '../tables.ts';
import type { Work } from '../work/running-work.ts';
import { type FinishedLine, writeFinishedLine } from './line.ts';

/** A piece of the file is handed on once it has so many characters: some ten headers, which other calls wait for some 30 ms. */
const PIECE_LENGTH = 120_000;

/**
 * Each header is proven before it is written; what is not as it was finished is left out and named. Pieces go into `file`, or, where the
 * page takes them, come with every state of the work.
 */
export async function* exportFinished(
  connection: Connection,
  headerIds: readonly string[],
  file: OutgoingFile | null,
): Work {
  const leftOut: { readonly name: string; readonly problem: Problem }[] = [];
  let [piece, count, bytes] = ['', 0, 0];
  for (const [at, headerId] of headerIds.entries()) {
    const line = connection.use((tables) => lineOf(tables, headerId));
    if (!line.ok) return line;
    const { name, text } = line.value;
    if (text.ok) {
      piece += `${text.value}\n`;
      count += 1;
    } else leftOut.push(...text.problems.map((problem) => ({ name, problem })));
    if (piece.length < PIECE_LENGTH && at + 1 < headerIds.length) continue;
    const written = Buffer.from(piece);
    [piece, bytes] = ['', bytes + written.length];
    file?.write(written);
    yield { stage: 'writing', done: at + 1, of: headerIds.length, piece: file === null ? written : null };
  }
  file?.finish();
  return success({ kind: 'exported', headers: count, bytes, leftOut, fileName: file?.fileName ?? null });
}

interface NamedLine {
  readonly name: string;
  readonly text: Result<string, Problem>;
}

function lineOf(tables: Tables, headerId: string): Result<NamedLine, Problem> {
  return tables.inTransaction<NamedLine, Problem>(() => {
    const name = tables.journal.newest(headerId)?.name ?? headerId;
    return success({ name, text: provenLine(tables, headerId) });
  }, 'DEFERRED');
}

function provenLine(tables: Tables, headerId: string): Result<string, Problem> {
  const read = readHeader(tables, headerId);
  if (!read.ok) return read;
  const damage = problemWith(tables, headerId, read.value);
  if (damage) return failure(damage);
  const line = finishedLineOf(tables, headerId, read.value.header);
  return line === null ? failure({ kind: 'notFound', what: 'header', id: headerId }) : writeFinishedLine(line);
}

/** Null where the header is not finished. */
function finishedLineOf({ archive, pictures }: Tables, headerId: string, header: Header): FinishedLine | null {
  const row = archive.find(headerId);
  const frozen = row === null ? null : frozenIn(row);
  if (row === null || frozen === null) return null;
  const rows = pictures.rowsOf(headerId);
  const record = { header, ...frozen, pictures: rows.map(factsOf) };
  const files = rows.map((picture) => pictures.file(picture) ?? new Uint8Array());
  return { id: headerId, seal: row.seal, record, files };
}
