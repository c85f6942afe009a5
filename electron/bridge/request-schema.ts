/** The schemas that requests are checked by, with the most used ones compiled. */

import * as z from 'zod';
import { type CallName, contract } from './contract.ts';

/** Checked with every edit and every keystroke. */
const FREQUENT: readonly CallName[] = ['commitSteps', 'saveDraft'];

const compiled = new Map<CallName, z.ZodType>();

/**
 * The schema of a call's requests. A frequent one is compiled at its first use, which takes some tens of milliseconds once
 * a process; from then on it takes a half to a third of the time, and answers as the one in the contract does. Pages must
 * not ask: their content policy forbids code that is made while they run.
 */
export function requestSchema(name: CallName): z.ZodType {
  if (!FREQUENT.includes(name)) return contract[name].request;
  const known = compiled.get(name);
  if (known !== undefined) return known;
  const schema = z.compile<z.ZodType>(contract[name].request);
  compiled.set(name, schema);
  return schema;
}
