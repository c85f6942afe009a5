/** A file that leaves the program piece by piece: whole under its name, or not there. */

import { closeSync, existsSync, fsyncSync, openSync, renameSync, rmSync, writeSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { syncFile, syncFolder } from './durable-files.ts';

export interface OutgoingFile {
  readonly fileName: string;
  /** Where it grows until it is finished; for who writes it by other means than `write`. */
  readonly unfinished: string;
  write(piece: Uint8Array): void;
  /** Puts it on the disk and gives it its name, in the place of what stood there. */
  finish(): void;
  /** Takes away what was begun; nothing after `finish`. */
  drop(): void;
}

/** How many were begun: two windows may write to one name at once, and then the last to finish has it. */
let begun = 0;

/** Throws what the file system throws, as its acts do. Nothing is written before the first of them. */
export function outgoingFile(path: string): OutgoingFile {
  const folder = dirname(path);
  begun += 1;
  const unfinished = join(folder, `.${basename(path).slice(0, 60)}.${process.pid}-${begun}.partial`);
  let descriptor: number | null = null;
  const close = () => {
    if (descriptor !== null) closeSync(descriptor);
    descriptor = null;
  };
  return {
    fileName: basename(path),
    unfinished,
    write(piece) {
      descriptor ??= openSync(unfinished, 'w');
      for (let at = 0; at < piece.length; ) at += writeSync(descriptor, piece, at);
    },
    finish() {
      // A file of nothing is a file, too.
      if (descriptor === null && !existsSync(unfinished)) descriptor = openSync(unfinished, 'w');
      if (descriptor === null) syncFile(unfinished);
      else fsyncSync(descriptor);
      close();
      renameSync(unfinished, path);
      syncFolder(folder);
    },
    drop() {
      close();
      rmSync(unfinished, { force: true });
    },
  };
}
