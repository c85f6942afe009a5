/** P11: how long the build sheet of a large header takes, from the question to the bytes of the PDF. */

import { performance } from 'node:perf_hooks';
import { fileURLToPath } from 'node:url';
import { newHeader } from '../../core/index.ts';
import { drawnFile } from '../../electron/output/drawing/drawing.ts';
import { readFontFiles } from '../../electron/output/pages/font-files.ts';
import { type Measure, quantile, type RunSize } from '../measure.ts';
import { calibrate } from './calibration.ts';
import { largeHeader } from './large-header.ts';

const GOAL_MS = 2000;

/** The first sheet of a run, fonts read and nothing compiled yet, which is what a person waits for; and the median of those after it. */
export async function measureSheet(size: RunSize): Promise<readonly Measure[]> {
  const header = largeHeader(newHeader({ id: 'eight-by-twenty', name: 'Eight by twenty' }));
  const samplesMs: number[] = [];
  let pages = 0;
  for (let run = 0; run <= (size === 'long' ? 25 : 5); run += 1) {
    const startMs = performance.now();
    const fonts = readFontFiles(fileURLToPath(import.meta.url));
    const drawing = { kind: 'sheet' as const, header, plans: [] };
    const file = await drawnFile({ drawing, paper: 'letter', format: 'pdf' }, fonts);
    samplesMs.push(performance.now() - startMs);
    if (!file.ok) throw new Error(JSON.stringify(file.problems));
    pages =
      Buffer.from(file.value.content)
        .toString('latin1')
        .split(/\/Type \/Page\b/).length - 1;
  }
  const [firstMs = Number.NaN, ...later] = samplesMs;
  const { factor, words } = calibrate();
  const again = `${quantile(later, 0.5).toFixed(0)} ms at the median once it has been drawn`;
  const what = `first build sheet of 8 primaries of 20 pieces, ${pages} pages as PDF (${words}); ${again}`;
  const goal = `< ${(GOAL_MS * factor).toFixed(0)}`;
  return [{ id: 'P11', what, value: firstMs, unit: 'ms', goal, ok: pages > 1 && firstMs < GOAL_MS * factor }];
}
