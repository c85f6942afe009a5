/** The schemas that requests are checked by: those of the contract, with the one for steps compiled. */

import * as z from 'zod';
import { type CallName, contract } from './contract.ts';

let compiledSteps: z.ZodType | null = null;

/**
 * The schema of a call's requests. That of `commitSteps`, which comes with every edit, is compiled at its first use: some
 * tens of milliseconds once a process, and from then on a half to a third of the time a check, with the same answers. Pages
 * must not ask: their content policy forbids code that is made while they run.
 */
export function requestSchema(name: CallName): z.ZodType {
  if (name !== 'commitSteps') return contract[name].request;
  compiledSteps ??= z.compile<z.ZodType>(contract[name].request);
  return compiledSteps;
}
