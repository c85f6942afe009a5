/** How long the report of a whole header takes to compute, without a screen. */

import { performance } from 'node:perf_hooks';
import { newHeader } from '../../core/header/new-header.ts';
import { matchHeader } from '../../core/length/match-header.ts';
import { type Measure, quantile, type RunSize } from '../measure.ts';
import { largeHeader } from './large-header.ts';

const GOAL_US = 50;

/** Medians of batches: one call is shorter than the clock's own noise. */
export function measureMatchHeader(size: RunSize): readonly Measure[] {
  const header = largeHeader(newHeader({ id: 'large', name: 'Eight by twenty' }));
  const perBatch = 100;
  const batches = size === 'long' ? 400 : 100;
  const samplesUs: number[] = [];
  let seen = 0;
  for (let batch = 0; batch < batches; batch += 1) {
    const startMs = performance.now();
    for (let call = 0; call < perBatch; call += 1) seen += matchHeader(header).primaries.length;
    samplesUs.push(((performance.now() - startMs) * 1000) / perBatch);
  }
  if (seen !== batches * perBatch * header.primaries.length)
    throw new Error('matchHeader did not report every primary');
  const value = quantile(samplesUs, 0.5);
  const what = 'matchHeader of 8 primaries of 20 pieces, median';
  return [{ id: 'P1b', what, value, unit: 'us', goal: `< ${GOAL_US}`, ok: value < GOAL_US }];
}
