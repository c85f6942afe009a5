/** A tuned length as the target of a header: a typed length that says which formula it came from. */

import type { TunedSource } from '../header/engine.ts';
import type { Target } from '../header/header.ts';
import type { HeaderProblem } from '../header/header-problem.ts';
import { type Result, success } from '../result.ts';
import { finenessMm } from '../units/format-length.ts';
import { lengthIn } from '../units/length.ts';
import { type LengthStyle, unitOf } from '../units/length-style.ts';
import { tunedLength } from './tuned-length.ts';

/** The length that a formula gives, to the fineness shown: nobody cuts a starting point finer. Problems as `tunedLength`. */
export function tunedTarget(tuned: TunedSource, style: LengthStyle): Result<Target, HeaderProblem> {
  const found = tunedLength(tuned.formula, tuned.inputs);
  if (!found.ok) return found;
  const step = finenessMm(style);
  const roundedMm = Math.max(1, Math.round(found.value.lengthMm / step)) * step;
  return success({ kind: 'typed', length: lengthIn(roundedMm, unitOf(style)), tuned });
}
