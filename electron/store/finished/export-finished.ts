/** Writes finished headers into a file, a line each, a piece of the file at a time. */

import { failure, type Problem, type Result, success } from '../../../core/index.ts';
import type { OutgoingFile } from '../../output/outgoing-file.ts';
import { frozenIn } from '../archive/archive.ts';
import type { Connection } from '../file/connection.ts';
import { damageIn } from '../header/opened-header.ts';
import { readHeader } from '../header/read-header.ts';
import { factsOf } from '../pictures/picture-table.ts';
import type { Tables } from '../tables.ts';
import type { Work } from '../work/running-work.ts';
import { type FinishedLine, writeFinishedLine } from './line.ts';

/** A piece of the file is handed on once it has so many characters. */
const PIECE_LENGTH = 500_000;

/**
 * Each header is proven before it is written; what is not as it was finished is left out and named. Pieces go into `file`, or, where the
 * page takes them, come with every state of the work. A header that was taken away since the beginning is left out without a word.
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
    if (line.value.ok) {
      piece += `${line.value.value}\n`;
      count += 1;
    } else leftOut.push(...line.value.problems.map((problem) => ({ name: nameIn(problem, headerId), problem })));
    if (piece.length < PIECE_LENGTH && at + 1 < headerIds.length) continue;
    const written = Buffer.from(piece);
    [piece, bytes] = ['', bytes + written.length];
    file?.write(written);
    yield { stage: 'writing', done: at + 1, of: headerIds.length, piece: file === null ? written : null };
  }
  file?.finish();
  return success({ kind: 'exported', headers: count, bytes, leftOut, fileName: file?.fileName ?? null });
}

function nameIn(problem: Problem, headerId: string): string {
  return problem.kind === 'alteredHeader' ? problem.name : headerId;
}

/** The outer result is of the database, the inner one of this header. */
function lineOf(tables: Tables, headerId: string): Result<Result<string, Problem>, Problem> {
  return tables.inTransaction<Result<string, Problem>, Problem>(
    () => success(provenLine(tables, headerId)),
    'DEFERRED',
  );
}

function provenLine(tables: Tables, headerId: string): Result<string, Problem> {
  const damage = damageIn(tables, headerId);
  if (damage) return failure(damage);
  const line = finishedLineOf(tables, headerId);
  return line === null ? failure({ kind: 'notFound', what: 'header', id: headerId }) : writeFinishedLine(line);
}

/** Null where the header is not finished. */
function finishedLineOf(tables: Tables, headerId: string): FinishedLine | null {
  const { archive, pictures } = tables;
  const [row, read] = [archive.find(headerId), readHeader(tables, headerId)];
  const frozen = row === null ? null : frozenIn(row);
  if (row === null || frozen === null || !read.ok) return null;
  const rows = pictures.rowsOf(headerId);
  const record = { header: read.value.header, ...frozen, pictures: rows.map(factsOf) };
  return {
    id: headerId,
    seal: row.seal,
    record,
    files: rows.map((picture) => pictures.file(picture) ?? new Uint8Array()),
  };
}
