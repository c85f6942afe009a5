/** Turns a step of the stock book back, and with it what a cut plan did to its headers. */

import type { Problem, Result } from '../../../core/index.ts';
import type { StepMade, Written } from '../shelf/shelf.ts';
import type { Tables } from '../tables.ts';
import { turnSteps } from './turn-shelf.ts';

/** In a transaction of whoever calls. Refused: pieces or stock changed since, or a header is finished. */
export function turnShelfBack(
  tables: Tables,
  { action, step }: { readonly action: 'undo' | 'redo'; readonly step: number },
  made: StepMade,
): Result<Written, Problem> {
  const { shelf, cutPlans } = tables;
  const stepId = shelf.idOfLast(step);
  const written = shelf.turnBack(action, step, made);
  if (!written.ok || stepId === null) return written;
  return turnSteps(tables, { headerIds: cutPlans.headersOf(step), stepId }, made) ?? written;
}
