/** Reads files so that nothing else waits: small ones at once, others on a thread of their own, for a bounded time. */

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { failure } from '../../core/index.ts';
import type { RequestOf } from '../bridge/contract.ts';
import type { Answer } from '../bridge/dispatcher.ts';
import { type ChosenFile, previewFile } from './preview-file.ts';

/** Three headers' worth, and read within a few dozen milliseconds whatever is in it: less than a thread takes to start. */
const SMALL_BYTES = 64 * 1024;

/** The largest honest file is read in a second or two, and in ten on a slow machine that is busy. */
const LIMIT_MS = 30_000;

/** What the largest file that is looked at comes to when it is read, and room; a hostile one ends its own thread at most. */
const MEMORY_MIB = 1024;

export interface PreviewOptions {
  readonly newId: () => string;
  readonly limitMs?: number;
}

/** The answer to `previewFile`. Rejects only when the thread itself breaks, which is a fault of ours. */
export async function previewApart(
  { content, expect, unit }: RequestOf<'previewFile'>,
  { newId, limitMs = LIMIT_MS }: PreviewOptions,
): Promise<Answer<'previewFile'>> {
  const file = { bytes: Buffer.from(content, 'base64'), expect, unit };
  return file.bytes.length <= SMALL_BYTES ? previewFile(file, newId) : onThread(file, limitMs);
}

function onThread(file: ChosenFile, limitMs: number): Promise<Answer<'previewFile'>> {
  return new Promise((resolve, reject) => {
    const worker = startWorker(file);
    const timer = setTimeout(() => {
      const detail = `${limitMs / 1000} seconds`;
      resolve(failure({ kind: 'unreadableFile', reason: 'tooSlow', path: [], detail }));
      void worker.terminate();
    }, limitMs);
    worker.once('message', (answer: Answer<'previewFile'>) => resolve(answer));
    worker.once('error', reject);
    worker.once('exit', (code) => {
      clearTimeout(timer);
      // Does nothing after an answer.
      reject(new Error(`the thread that reads files ended with ${code} and without an answer`));
    });
  });
}

function startWorker(workerData: ChosenFile): Worker {
  const options = { workerData, resourceLimits: { maxOldGenerationSizeMb: MEMORY_MIB } };
  if (import.meta.filename.endsWith('.ts')) return new Worker(new URL('./preview-worker.ts', import.meta.url), options);
  // Built, it is a bundle beside this one. Threads cannot start from inside a package's archive, but the text can be read there.
  const built = join(import.meta.dirname, '..', 'reader', 'reader.cjs');
  return new Worker(readFileSync(built, 'utf8'), { ...options, eval: true });
}
