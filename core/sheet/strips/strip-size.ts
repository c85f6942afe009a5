/** How large a drawing in true size may be: past it nobody tapes the parts together, and a slip of the keys would print for days. */

import type { StripProblem } from '../sheet-problem.ts';
import type { Strip } from './strip.ts';

/** About 140 pages. */
const MOST_MM2 = 6e6;

/** Why it is not drawn; null when it can be. */
export function stripTooLarge({ name, widthMm, heightMm }: Strip): StripProblem | null {
  return widthMm * heightMm <= MOST_MM2 ? null : { kind: 'stripTooLarge', name, widthMm, heightMm };
}
