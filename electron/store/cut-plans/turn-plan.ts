/** Turns a step of the stock book back, and with it what a cut plan did to its header. */

import { type Problem, type Result, success } from '../../../core/index.ts';
import type { Standing } from '../header/standing.ts';
import { turnStep } from '../header/turn-step.ts';
import type { StepMade, Written } from '../shelf/shelf.ts';
import type { Tables } from '../tables.ts';

export interface Turned {
  readonly written: Written;
  /** Of the header whose pieces are what they were; null: the step was no plan. */
  readonly standing: Standing | null;
}

/** In a transaction of whoever calls. Refused: pieces or stock changed since, or the header is finished. */
export function turnShelfBack(
  tables: Tables,
  { action, step }: { readonly action: 'undo' | 'redo'; readonly step: number },
  made: StepMade,
): Result<Turned, Problem> {
  const { shelf, cutPlans } = tables;
  const headerId = cutPlans.headerOf(step);
  const stepId = headerId === null ? null : shelf.idOfLast(step);
  const written = shelf.turnBack(action, step, made);
  if (!written.ok) return written;
  if (headerId === null || stepId === null) return success({ written: written.value, standing: null });
  const turned = turnStep(tables, { headerId, stepId, asStep: made.requestId }, made.at);
  return turned.ok ? success({ written: written.value, standing: turned.value }) : turned;
}
