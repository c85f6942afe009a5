/** Whether something built is still as new as what it was built from. */

import { lstatSync, readdirSync } from 'node:fs';
import { join } from 'node:path';

function modifiedMs(path: string): number {
  return lstatSync(path, { throwIfNoEntry: false })?.mtimeMs ?? Number.NaN;
}

/** When anything below a source was last changed, by path: several bundles have the same sources. */
export type Looked = Map<string, number>;

function newestMs(path: string): number {
  const stat = lstatSync(path, { throwIfNoEntry: false });
  if (stat === undefined) return 0;
  if (!stat.isDirectory()) return stat.mtimeMs;
  // A folder's own time moves when a file in it is added or removed.
  return readdirSync(path).reduce((newest, name) => Math.max(newest, newestMs(join(path, name))), stat.mtimeMs);
}

/** True when `built` is missing, or any file below `sources` is newer than it. What is looked at is kept in `looked`, and not looked at again. */
export function isOlderThanSources(built: string, sources: readonly string[], looked: Looked = new Map()): boolean {
  const builtMs = modifiedMs(built);
  return Number.isNaN(builtMs) || sources.some((source) => newestOf(source, looked) > builtMs);
}

function newestOf(source: string, looked: Looked): number {
  const ms = looked.get(source) ?? newestMs(source);
  looked.set(source, ms);
  return ms;
}
