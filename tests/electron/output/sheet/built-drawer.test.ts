/** The thread that draws, as it is built into the program: the same bytes as from the sources. */

import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { expect, test } from 'vitest';
import { demoHeader } from '../../../../core/header/demo-header.ts';
import { buildIfStale, bundleFile } from '../../../../electron/build/bundles.ts';
import type { DrawAnswer, DrawWork } from '../../../../electron/output/drawing/draw-worker.ts';
import { drawnFile } from '../../../../electron/output/drawing/drawing.ts';
import { FONTS } from './drawn-pages.ts';

const ROOT = fileURLToPath(new URL('../../../..', import.meta.url));

function drawnByBundle(workerData: DrawWork): Promise<DrawAnswer> {
  const worker = new Worker(readFileSync(bundleFile(ROOT, 'drawer'), 'utf8'), { workerData, eval: true });
  return new Promise((resolve, reject) => {
    worker.once('message', resolve);
    worker.once('error', reject);
  });
}

test('a PDF and a DXF drawn by the built thread are those of the sources', async () => {
  await buildIfStale(ROOT, ['drawer']);
  const header = demoHeader('demo');
  const sheet = {
    drawing: { kind: 'sheet' as const, header, plans: [] },
    paper: 'a4' as const,
    format: 'pdf' as const,
  };
  const strips = { kind: 'along', primaryId: 'primary-1' } as const;
  const strip = { drawing: { kind: 'strips', header, strips }, paper: 'a4', format: 'dxfArcs' } as const;
  for (const request of [sheet, strip]) {
    const built = await drawnByBundle({ kind: 'file', request, fonts: FONTS });
    const meant = await drawnFile(request, FONTS);
    if (built.kind !== 'file' || !built.drawn.ok || !meant.ok) throw new Error('was refused');
    expect(built.drawn.value.fileName).toBe(meant.value.fileName);
    expect(Buffer.from(built.drawn.value.content).equals(Buffer.from(meant.value.content))).toBe(true);
  }
});
