/** Folders for one test file, gone when it ends. */

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll } from 'vitest';

const made: string[] = [];

/** An empty folder of the test file's own; `name` tells people what it was for. */
export function temporaryFolder(name: string): string {
  const folder = mkdtempSync(join(tmpdir(), `evenrun-${name}-`));
  made.push(folder);
  return folder;
}

afterAll(() => {
  for (const folder of made) rmSync(folder, { recursive: true, force: true, maxRetries: 3 });
});
