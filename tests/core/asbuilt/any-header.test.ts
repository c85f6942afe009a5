/** Whatever stands in a header, nothing about the finished tube throws, and what is offered can be taken. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { asBuilt } from '../../../core/asbuilt/as-built.ts';
import { endReach } from '../../../core/asbuilt/end-scatter.ts';
import { describeMisEntry } from '../../../core/asbuilt/mis-entry/describe-mis-entry.ts';
import { findMisEntry } from '../../../core/asbuilt/mis-entry/find-mis-entry.ts';
import { applyEdit } from '../../../core/edits/apply-edit.ts';
import { pulseTiming } from '../../../core/gas/pulse-timing.ts';
import { engineOf } from '../../../core/gas/usual-engine.ts';
import type { Header } from '../../../core/header/header.ts';
import { headerArbitrary } from '../../generators/headers.ts';

const SEARCH = { clrsMm: [63.5, 76.2, 101.6], newId: 'found' };
const RUNS = 120;

function expectSound(header: Header): number {
  let offered = 0;
  for (const primary of header.primaries) {
    const { lengths, centreline } = asBuilt(header, primary);
    for (const { differenceMm, computedWithinMm } of lengths) {
      expect([Number.isFinite(differenceMm), computedWithinMm >= 0]).toEqual([true, true]);
    }
    expect(centreline === null).toBe(lengths.length === 0);
    endReach(header, primary);
    const outcome = findMisEntry(header, primary, SEARCH);
    if (outcome.kind !== 'explained') continue;
    for (const entry of outcome.entries) {
      offered += 1;
      expect(entry.share).toBeGreaterThan(0);
      expect(describeMisEntry(entry, header.settings.display)).not.toMatch(/undefined|NaN/);
      if (header.state === 'open') expect(applyEdit(header, entry.edit).ok).toBe(true);
    }
  }
  return offered;
}

test('readings, search and scatter of any header', { timeout: 600_000 }, () => {
  let offered = 0;
  fc.assert(
    fc.property(headerArbitrary(), (header) => {
      offered += expectSound(header);
    }),
    { numRuns: RUNS },
  );
  expect(offered).toBeGreaterThan(10);
});

test('pulses of any header', () => {
  fc.assert(
    fc.property(headerArbitrary(), (header) => {
      const { collectors, withoutCylinder, sameCylinder } = pulseTiming(header, { engine: engineOf(header) });
      const shown = collectors.flatMap(({ pulses }) => pulses).length;
      const begun = header.primaries.filter(({ pieces }) => pieces.length > 0).length;
      expect(shown + withoutCylinder.length + sameCylinder.length).toBe(begun);
    }),
    { numRuns: RUNS },
  );
});
