/** A1 as a measure. */

import { runAxe } from '../e2e/axe-findings.ts';
import type { Measure } from '../measure.ts';

export async function measureAxe(): Promise<readonly Measure[]> {
  const { views, findings } = await runAxe();
  const value = findings.length;
  const what = `findings of axe in ${views} views: every screen and dialog in light and dark, bench and desk size`;
  const words = [what, ...findings.slice(0, 5)].join('; ');
  return [{ id: 'A1', what: words, value, unit: 'findings', goal: '0', ok: value === 0 && views > 80 }];
}
