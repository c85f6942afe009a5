/** Puts a fetched archive in its place as the installed runtime, whole or not at all. */

import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { rename } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { versionIn, wantedVersion } from './electron-runtime.ts';
import { DownloadFailure } from './watched-download.ts';

type Unpack = (archive: string, options: { readonly dir: string }) => Promise<void>;

const WORK_FOLDER = /^fetching-(\d+)$/;

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (cause) {
    // A process of someone else is alive, though no signal may be sent to it.
    return (cause as NodeJS.ErrnoException).code === 'EPERM';
  }
}

/** A folder for this process alone, beside the place that its contents will take. What processes now dead left behind is removed. */
export function makeWorkFolder(electronFolder: string): string {
  for (const name of readdirSync(electronFolder)) {
    const pid = WORK_FOLDER.exec(name)?.[1];
    if (pid !== undefined && !isAlive(Number(pid)))
      rmSync(join(electronFolder, name), { recursive: true, force: true });
  }
  const folder = join(electronFolder, `fetching-${process.pid}`);
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder);
  return folder;
}

/** The unpacker of Electron's own installer: it keeps the links and the modes that a runtime consists of. */
async function unpackerOf(electronFolder: string): Promise<Unpack> {
  const path = createRequire(join(electronFolder, 'install.js')).resolve('@electron-internal/extract-zip');
  const { extract } = (await import(pathToFileURL(path).href)) as { readonly extract: Unpack };
  return extract;
}

const RENAME_TRIES = 5;

/** On Windows a scanner may hold files that have just been written; it lets go soon. */
async function renamePatiently(from: string, to: string): Promise<void> {
  for (let left = RENAME_TRIES; ; left -= 1) {
    try {
      return await rename(from, to);
    } catch (cause) {
      const isHeld = process.platform === 'win32' && (cause as NodeJS.ErrnoException).code === 'EPERM';
      if (!isHeld || left === 0) throw cause;
      await new Promise((resolve) => setTimeout(resolve, 400));
    }
  }
}

/** The record goes first and comes last, so that a half-changed folder never passes for a runtime. */
async function takePlace(unpacked: string, electronFolder: string, executable: string): Promise<void> {
  const record = join(electronFolder, 'path.txt');
  const place = join(electronFolder, 'dist');
  rmSync(record, { force: true });
  rmSync(place, { recursive: true, force: true });
  await renamePatiently(unpacked, place);
  const newRecord = join(electronFolder, `path-${process.pid}.txt`);
  writeFileSync(newRecord, executable);
  renameSync(newRecord, record);
}

export interface Unpacking {
  readonly archive: string;
  readonly electronFolder: string;
  readonly workFolder: string;
  /** The executable's path within the runtime. */
  readonly executable: string;
  readonly signal: AbortSignal;
}

/** Returns the executable's full path. Throws a `DownloadFailure` for an archive that holds something else, and the signal's reason. */
export async function unpackRuntime(unpacking: Unpacking): Promise<string> {
  const { archive, electronFolder, workFolder, executable, signal } = unpacking;
  const unpacked = join(workFolder, 'dist');
  const unpack = await unpackerOf(electronFolder);
  await unpack(archive, { dir: unpacked });
  // Unpacking itself cannot be stopped half-way; nothing is in its place yet.
  signal.throwIfAborted();
  if (!existsSync(join(unpacked, executable)) || versionIn(unpacked) !== wantedVersion(electronFolder))
    throw new DownloadFailure('the archive does not hold the runtime that it should');
  await takePlace(unpacked, electronFolder, executable);
  return join(electronFolder, 'dist', executable);
}
