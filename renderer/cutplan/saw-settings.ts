/** How the shop saws: the fields that it is typed in, and how they are read. */

import { type Length, type LengthStyle, mmOf, parseLength, type TypedSaw, unitOf } from '../../core/index.ts';
import { withDecimalPoints } from '../ui/fields/typed-numbers.ts';
import { wordsFor } from '../ui/words/problem-words.ts';

export const SAW_FIELDS = [
  { id: 'kerf', name: 'Kerf', mostMm: 100 },
  { id: 'facing', name: 'Facing, each sawn end', mostMm: 100 },
  { id: 'shortestRemnant', name: 'Shortest remnant kept', mostMm: 10_000 },
] as const satisfies readonly { readonly id: keyof TypedSaw; readonly name: string; readonly mostMm: number }[];

export type ReadSaw = { readonly ok: true; readonly length: Length } | { readonly ok: false; readonly words: string };

/** @param mostMm a figure above this is a slip, and is said to be one */
export function readSawField(text: string, style: LengthStyle, mostMm: number): ReadSaw {
  const read = parseLength(withDecimalPoints(text), unitOf(style));
  if (!read.ok) return { ok: false, words: wordsFor(read.problems) };
  if (mmOf(read.value) > mostMm) return { ok: false, words: `This is ${mostMm} mm at most.` };
  return { ok: true, length: read.value };
}
