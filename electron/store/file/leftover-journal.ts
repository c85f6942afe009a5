/** A rollback journal that a power cut left beside the database: whose it is, and how it is played back. */

import { closeSync, openSync, readSync, statSync } from 'node:fs';
import Database from 'better-sqlite3';
import type { StorageProblem } from '../../../core/index.ts';
import { storageProblem } from './faults.ts';
import { type Identity, identityProblem } from './identity.ts';

/** Bytes of a database's header (SQLite, "Database File Format", section 1.3). */
const HEADER_BYTES = 100;
const FORMAT = 'SQLite format 3\0';
const JOURNAL_MAGIC = 'd9d505f920a163d7';

/**
 * Only the very first transaction of a database has a rollback journal, and a restored one's return to its log: at all
 * other times it keeps a log. A power cut then leaves one behind that a readonly connection may not play back; any
 * reading by a writing one does, and takes nothing away that was ever committed. Since that writes, the version is
 * looked up first, from the plain bytes of both files: of the page as it now is, and of the page that the journal would
 * bring back. A file that either shows to be newer or a stranger's is refused with both files as they were.
 */
export function playBackJournal(file: string): StorageProblem | null {
  const journal = `${file}-journal`;
  if ((statSync(journal, { throwIfNoEntry: false })?.size ?? 0) === 0) return null;
  const refusal = journalRefusal(file, journal);
  if (refusal) return refusal;
  const db = new Database(file);
  try {
    db.pragma('user_version');
    return null;
  } finally {
    db.close();
  }
}

function journalRefusal(file: string, journal: string): StorageProblem | null {
  const { wasEmpty, firstPage } = readJournal(journal);
  for (const header of [readBytes(file, 0, HEADER_BYTES), firstPage]) {
    // Nothing was there, or nothing was written to it yet.
    if (header === null || header.every((byte) => byte === 0)) continue;
    if (header.toString('latin1', 0, FORMAT.length) !== FORMAT || header.length < HEADER_BYTES)
      return storageProblem('notOurs', file, 'this is not a database');
    const problem = identityProblem(identityIn(header, wasEmpty), file);
    if (problem) return problem;
  }
  return null;
}

/** Offsets 60 and 68 of the header. Before its first transaction has ended a database has no name yet. */
function identityIn(header: Buffer, isEmpty: boolean): Identity {
  return { version: header.readInt32BE(60), applicationId: header.readInt32BE(68), isEmpty };
}

/**
 * Whether the database was empty before the transaction, and the header of its first page as it was then; null when the
 * journal does not hold it ("Database File Format", section 3: a header of one sector, then records of a page number, the
 * page and a checksum). Records after a second header are not looked at.
 */
function readJournal(journal: string): { readonly wasEmpty: boolean; readonly firstPage: Buffer | null } {
  const header = readBytes(journal, 0, 28);
  if (header.length < 28 || header.toString('hex', 0, 8) !== JOURNAL_MAGIC) return { wasEmpty: false, firstPage: null };
  const [pagesBefore, sectorBytes, pageBytes] = [16, 20, 24].map((at) => header.readUInt32BE(at)) as [
    number,
    number,
    number,
  ];
  const wasEmpty = pagesBefore === 0;
  if (sectorBytes < 32 || pageBytes < 512) return { wasEmpty, firstPage: null };
  const { size } = statSync(journal);
  for (let at = sectorBytes; at + 4 + HEADER_BYTES <= size; at += pageBytes + 8) {
    const record = readBytes(journal, at, 4 + HEADER_BYTES);
    if (record.readUInt32BE(0) === 1) return { wasEmpty, firstPage: record.subarray(4) };
  }
  return { wasEmpty, firstPage: null };
}

/** Fewer bytes where the file ends; none where it is not there. */
function readBytes(file: string, at: number, count: number): Buffer {
  if (!statSync(file, { throwIfNoEntry: false })) return Buffer.alloc(0);
  const opened = openSync(file, 'r');
  try {
    const bytes = Buffer.alloc(count);
    return bytes.subarray(0, readSync(opened, bytes, 0, count, at));
  } finally {
    closeSync(opened);
  }
}
