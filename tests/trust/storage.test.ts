/** The storage rows of the trust table at the sizes that fit into every test run. */

import { describe, expect, test } from 'vitest';
import { powerCutShim } from './compile-shim.ts';
import { STORAGE_RUNS } from './storage-measures.ts';

const NEEDS_SHIM = ['R2'];
const MINUTES = 60_000;
const shim = powerCutShim();

describe('what was acknowledged is on disk', () => {
  for (const { ids, run } of STORAGE_RUNS) {
    const reason = NEEDS_SHIM.includes(ids[0]) && !shim.ok ? shim.reason : null;
    test.skipIf(reason !== null)(
      `${ids.join(', ')}${reason === null ? '' : ` (skipped: ${reason})`}`,
      async () => {
        const measures = await run('quick');
        const shown = shim.ok ? measures : measures.filter(({ value }) => value !== null);
        expect(shown.filter(({ ok }) => !ok)).toEqual([]);
        expect(shown.length).toBeGreaterThan(0);
      },
      5 * MINUTES,
    );
  }
});
