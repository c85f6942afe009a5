/** A variable with the value that a move gives it. */

import type { Length } from '../../units/length.ts';
import type { Variable } from './variable.ts';

export interface Setting {
  readonly variable: Variable;
  /** What is added to the present value, mm or radians. */
  readonly value: number;
  /** As it will be stored; null for an angle. */
  readonly length: Length | null;
  /** As it will be stored; null for a length. */
  readonly angleDeg: number | null;
}
