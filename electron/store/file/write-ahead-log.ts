/** What a write-ahead log adds to its database, worked out in memory (SQLite, "WAL-mode File Format", sections 2 to 4). */

const LOG_HEADER_BYTES = 32;
const FRAME_HEADER_BYTES = 24;
/** The last bit says whether the words that the checksums go over are big-endian. */
const MAGIC = 0x377f0682;

/** A running pair of sums over 32-bit words. */
type Sums = readonly [number, number];

/**
 * The database with every commit of the log in it. Frames count as far as their checksums hold and their salts are those
 * of the log's header, which older frames behind the newest do not have; what follows the last commit is no part of any.
 * A log that is not one, or is of other pages, adds nothing. Linear in the size of the log.
 */
export function withLog(pages: Buffer, log: Buffer): Buffer {
  const pageBytes = log.length < LOG_HEADER_BYTES ? 0 : log.readUInt32BE(8);
  if (pageBytes < 512 || pageBytes !== pageBytesOf(pages)) return pages;
  const { commitEnd, pageCount } = lastCommit(log, pageBytes);
  if (pageCount === 0) return pages;
  const whole = Buffer.alloc(pageCount * pageBytes);
  pages.copy(whole);
  for (let at = LOG_HEADER_BYTES; at < commitEnd; at += FRAME_HEADER_BYTES + pageBytes) {
    const page = log.readUInt32BE(at);
    // A later commit may have made the database shorter.
    if (page >= 1 && page <= pageCount)
      log.copy(whole, (page - 1) * pageBytes, at + FRAME_HEADER_BYTES, at + FRAME_HEADER_BYTES + pageBytes);
  }
  return whole;
}

/** Where the last frame of the last commit ends, and how many pages the database has then; 0 pages when there is none. */
function lastCommit(log: Buffer, pageBytes: number): { readonly commitEnd: number; readonly pageCount: number } {
  let commitEnd = 0;
  let pageCount = 0;
  const magic = log.readUInt32BE(0);
  const isBigEndian = (magic & 1) === 1;
  const sumUp = (sums: Sums, from: number, to: number) => addUp(sums, log.subarray(from, to), isBigEndian);
  let sums: Sums = sumUp([0, 0], 0, 24);
  if ((magic & ~1) !== MAGIC || !holds(sums, log, 24)) return { commitEnd, pageCount };
  const frameBytes = FRAME_HEADER_BYTES + pageBytes;
  for (let at = LOG_HEADER_BYTES; at + frameBytes <= log.length; at += frameBytes) {
    if (!log.subarray(at + 8, at + 16).equals(log.subarray(16, 24))) break;
    sums = sumUp(sumUp(sums, at, at + 8), at + FRAME_HEADER_BYTES, at + frameBytes);
    if (!holds(sums, log, at + 16)) break;
    // Nought in all frames of a commit but its last.
    const pagesAfter = log.readUInt32BE(at + 4);
    if (pagesAfter > 0) [commitEnd, pageCount] = [at + frameBytes, pagesAfter];
  }
  return { commitEnd, pageCount };
}

function addUp([first, second]: Sums, bytes: Buffer, isBigEndian: boolean): Sums {
  let [one, two] = [first, second];
  const word = (at: number) => (isBigEndian ? bytes.readUInt32BE(at) : bytes.readUInt32LE(at));
  for (let at = 0; at < bytes.length; at += 8) {
    one = (one + word(at) + two) >>> 0;
    two = (two + word(at + 4) + one) >>> 0;
  }
  return [one, two];
}

/** Whether the sums are those written at this place; they are written big-endian always. */
function holds([one, two]: Sums, log: Buffer, at: number): boolean {
  return log.readUInt32BE(at) === one && log.readUInt32BE(at + 4) === two;
}

/** Offset 16 of the database's header, where 1 stands for 65,536. */
function pageBytesOf(pages: Buffer): number {
  const written = pages.length < 100 ? 0 : pages.readUInt16BE(16);
  return written === 1 ? 0x1_0000 : written;
}
