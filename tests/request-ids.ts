/** Gives a request that is done once an id of its own, as the page does, unless a test has given it one. */

import { randomUUID } from 'node:crypto';
import * as z from 'zod';
import { type AskedOf, type CallName, contract } from '../electron/bridge/contract.ts';

export function withRequestId<Name extends CallName>(name: Name, request: AskedOf<Name>): unknown {
  const schema: z.ZodType = contract[name].request;
  const isOnce = schema instanceof z.ZodObject && 'requestId' in schema.shape;
  return isOnce && !('requestId' in request) ? { requestId: randomUUID(), ...request } : request;
}
