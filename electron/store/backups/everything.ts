/** The user's own backup: the whole database as one file in a place of their choosing, and the way back from it. */

import { closeSync, existsSync, openSync, readdirSync, readSync, writeSync } from 'node:fs';
import { basename, join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import type Database from 'better-sqlite3';
import { failure, success } from '../../../core/index.ts';
import { syncFile } from '../../output/durable-files.ts';
import type { OutgoingFile } from '../../output/outgoing-file.ts';
import { beginPrivateFile } from '../../output/private-files.ts';
import type { DataFolder } from '../file/data-folder.ts';
import { freeDatabase, freeName, sizeOf } from '../file/names-in-use.ts';
import type { Going, Work } from '../work/running-work.ts';
import { proveDatabase, strangerIn } from './prove-database.ts';

/** Pages copied before other calls get their turn. */
const PAGES_A_STEP = 256;
/** How often the page hears of a copy that goes on by itself. */
const LOOK_MS = 50;
/** A piece of a file that is handed to the page. */
const PIECE_BYTES = 1_000_000;

const GIVEN = '.given';

/** Where a file that was handed in lies until it takes the place of the database, or is given up. The id comes of a request. */
export function givenFile({ databaseFile }: DataFolder, givenId: string): string {
  return `${databaseFile}.${givenId}${GIVEN}`;
}

/** Takes away what a program that was killed, or a page that went away, left of such files. */
export function removeGiven({ folder, databaseFile }: DataFolder): void {
  if (!existsSync(folder)) return;
  const start = `${basename(databaseFile)}.`;
  const left = readdirSync(folder).filter((name) => name.startsWith(start) && name.includes(GIVEN));
  for (const name of left) freeName(join(folder, name));
}

/**
 * Copies the open database to `copy`, proves the copy, and only then gives it its name, or hands it to the page. `copy` is the unfinished
 * file itself where there is one, so that what is proven is what is kept.
 */
export async function* backUpEverything(db: Database.Database, copy: string, file: OutgoingFile | null): Work {
  freeDatabase(copy);
  beginPrivateFile(copy);
  try {
    yield* copied(db, copy);
  } catch (cause) {
    // Another window has put a backup in the place of what was being copied.
    if (!db.open) return failure({ kind: 'workGone' });
    throw cause;
  }
  const { changedAt: _, ...proven } = yield* proveDatabase(copy);
  syncFile(copy);
  if (file === null) {
    yield* handedOut(copy);
    freeDatabase(copy);
  }
  file?.finish();
  return success({ kind: 'backedUp', ...proven, fileName: file?.fileName ?? null });
}

async function* copied(db: Database.Database, copy: string): AsyncGenerator<Going, void, Uint8Array | null> {
  let [remaining, total] = [1, 1];
  let isStopped = false;
  const copying = db.backup(copy, {
    progress({ remainingPages, totalPages }) {
      if (isStopped) throw new Error('the copy was stopped');
      [remaining, total] = [remainingPages, totalPages];
      return PAGES_A_STEP;
    },
  });
  const end = copying.then(() => true);
  try {
    while (!(await Promise.race([end, wait(LOOK_MS, false)])))
      yield { stage: 'copying', done: Math.max(0, total - remaining), of: total, piece: null };
  } finally {
    isStopped = true;
    // Stopped, it ends with its next pages, and the file is free to be taken away.
    await copying.catch(() => null);
  }
}

async function* handedOut(copy: string): AsyncGenerator<Going, void, Uint8Array | null> {
  const size = sizeOf(copy);
  const descriptor = openSync(copy, 'r');
  try {
    for (let at = 0; at < size; ) {
      const piece = Buffer.alloc(Math.min(PIECE_BYTES, size - at));
      at += readSync(descriptor, piece, 0, piece.length, at);
      yield { stage: 'writing', done: at, of: size, piece };
    }
  } finally {
    closeSync(descriptor);
  }
}

/**
 * Takes in a file of `bytes` that the page hands over in pieces, and proves it. It is then ready under `copy`, to take the place of the
 * database; nothing else is touched.
 */
export async function* takeInEverything(copy: string, bytes: number, givenId: string): Work {
  freeDatabase(copy);
  beginPrivateFile(copy);
  const descriptor = openSync(copy, 'r+');
  try {
    for (let at = 0; at < bytes; ) {
      const piece = yield { stage: 'reading', done: at, of: bytes, piece: null };
      if (piece === null || piece.length === 0 || at + piece.length > bytes)
        return failure({ kind: 'invalidRequest', call: 'continueWork', detail: 'a piece of the file is missing' });
      for (let put = 0; put < piece.length; ) put += writeSync(descriptor, piece, put);
      at += piece.length;
    }
  } finally {
    closeSync(descriptor);
  }
  const stranger = strangerIn(copy);
  if (stranger) return failure(stranger);
  const proven = yield* proveDatabase(copy);
  syncFile(copy);
  return success({ kind: 'proven', ...proven, givenId });
}
