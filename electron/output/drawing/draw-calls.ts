/** The calls that draw: pages for the preview, and files. Each is drawn on a thread of its own, so that nothing waits for a long sheet. */

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { success } from '../../../core/index.ts';
import type { Handlers } from '../../bridge/dispatcher.ts';
import { type FontFiles, readFontFiles } from '../pages/font-files.ts';
import type { SaveFile } from '../saved-file.ts';
import type { DrawAnswer, DrawWork } from './draw-worker.ts';

/** What the longest sheet comes to, with room; one that asks for more ends its own thread at most. */
const MEMORY_MIB = 1024;

export function drawCalls(saveFile: SaveFile): Pick<Handlers, 'drawPages' | 'savePages'> {
  let fonts: FontFiles | null = null;
  // Read when they are first wanted: most starts draw nothing.
  const fontFiles = () => {
    fonts ??= readFontFiles(import.meta.filename);
    return fonts;
  };
  return {
    async drawPages(request) {
      const answer = await drawApart({ kind: 'pages', request, fonts: fontFiles() });
      if (answer.kind !== 'pages') throw new Error('pages were asked for');
      if (!answer.drawn.ok) return answer.drawn;
      const { pages, missing } = answer.drawn.value;
      return success({ pages: [...pages], missing: [...missing] });
    },
    async savePages(request) {
      const answer = await drawApart({ kind: 'file', request, fonts: fontFiles() });
      if (answer.kind !== 'file') throw new Error('a file was asked for');
      if (!answer.drawn.ok) return answer.drawn;
      const { fileName, mediaType, content } = answer.drawn.value;
      return success(await saveFile(fileName, mediaType, content));
    },
  };
}

function drawApart(workerData: DrawWork): Promise<DrawAnswer> {
  return new Promise((resolve, reject) => {
    const worker = startWorker(workerData);
    worker.once('message', (answer: DrawAnswer) => resolve(answer));
    worker.once('error', reject);
    // Does nothing after an answer.
    worker.once('exit', (code) => reject(new Error(`the thread that draws ended with ${code} and without an answer`)));
  });
}

function startWorker(workerData: DrawWork): Worker {
  const options = { workerData, resourceLimits: { maxOldGenerationSizeMb: MEMORY_MIB } };
  if (import.meta.filename.endsWith('.ts')) return new Worker(new URL('./draw-worker.ts', import.meta.url), options);
  // Built, it is a bundle beside this one. Threads cannot start from inside a package's archive, but the text can be read there.
  const built = join(import.meta.dirname, '..', 'drawer', 'drawer.cjs');
  return new Worker(readFileSync(built, 'utf8'), { ...options, eval: true });
}
