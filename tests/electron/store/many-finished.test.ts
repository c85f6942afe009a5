/** An archive is exported and brought back, the same to the byte; ten thousand headers with EVENRUN_LONG=1. */

import { expect, test } from 'vitest';
import { measureFinishedFiles } from '../../bench/finished-files.ts';

const { EVENRUN_LONG } = process.env;
const MINUTES = 60_000;

test(
  'P7c: each finished header comes back under its checksum, and takes less than 20 kB',
  async () => {
    const measures = await measureFinishedFiles(EVENRUN_LONG === '1' ? 'long' : 'quick');
    expect(measures.map(({ id }) => id)).toEqual(['P7c', 'P7c file', 'P7c disk', 'P7c time']);
    expect(measures.filter(({ ok }) => !ok)).toEqual([]);
  },
  15 * MINUTES,
);
