/** How the shop saws, as it was typed. */

import { type Length, MM_PER_INCH, mmOf } from '../../units/length.ts';
import type { SawSettings } from './cut-problem.ts';
import { DEFAULT_SAW } from './from-shelf.ts';

/** `SawSettings` with each length as the shop typed it. */
export interface TypedSaw {
  readonly kerf: Length;
  readonly facing: Length;
  readonly shortestRemnant: Length;
}

/** What stands until the shop says otherwise. */
export const SAW_AT_FIRST: TypedSaw = {
  kerf: { value: DEFAULT_SAW.kerfMm / MM_PER_INCH, unit: 'in' },
  facing: { value: DEFAULT_SAW.facingMm / MM_PER_INCH, unit: 'in' },
  shortestRemnant: { value: DEFAULT_SAW.shortestRemnantMm / MM_PER_INCH, unit: 'in' },
};

export function sawOf({ kerf, facing, shortestRemnant }: TypedSaw): SawSettings {
  return { kerfMm: mmOf(kerf), facingMm: mmOf(facing), shortestRemnantMm: mmOf(shortestRemnant) };
}
