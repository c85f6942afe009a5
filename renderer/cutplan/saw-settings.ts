/** How the shop saws, as it was typed, and as a plan is asked with it. */

import {
  DEFAULT_SAW,
  type Length,
  type LengthStyle,
  MM_PER_INCH,
  mmOf,
  parseLength,
  type SawSettings,
  unitOf,
} from '../../core/index.ts';
import { withDecimalPoints } from '../ui/fields/typed-numbers.ts';
import { wordsFor } from '../ui/words/problem-words.ts';

export interface KeptSaw {
  readonly kerf: Length;
  readonly facing: Length;
  readonly shortestRemnant: Length;
}

export const SAW_FIELDS = [
  { id: 'kerf', name: 'Kerf', mostMm: 100 },
  { id: 'facing', name: 'Facing, each sawn end', mostMm: 100 },
  { id: 'shortestRemnant', name: 'Shortest remnant kept', mostMm: 10_000 },
] as const satisfies readonly { readonly id: keyof KeptSaw; readonly name: string; readonly mostMm: number }[];

/** What stands until the shop says otherwise. */
export const SAW_AT_FIRST: KeptSaw = {
  kerf: { value: DEFAULT_SAW.kerfMm / MM_PER_INCH, unit: 'in' },
  facing: { value: DEFAULT_SAW.facingMm / MM_PER_INCH, unit: 'in' },
  shortestRemnant: { value: DEFAULT_SAW.shortestRemnantMm / MM_PER_INCH, unit: 'in' },
};

export function sawOf({ kerf, facing, shortestRemnant }: KeptSaw): SawSettings {
  return { kerfMm: mmOf(kerf), facingMm: mmOf(facing), shortestRemnantMm: mmOf(shortestRemnant) };
}

export type ReadSaw = { readonly ok: true; readonly length: Length } | { readonly ok: false; readonly words: string };

/** @param mostMm a figure above this is a slip, and is said to be one */
export function readSawField(text: string, style: LengthStyle, mostMm: number): ReadSaw {
  const read = parseLength(withDecimalPoints(text), unitOf(style));
  if (!read.ok) return { ok: false, words: wordsFor(read.problems) };
  if (mmOf(read.value) > mostMm) return { ok: false, words: `This is ${mostMm} mm at most.` };
  return { ok: true, length: read.value };
}
