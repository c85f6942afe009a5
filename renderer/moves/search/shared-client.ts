/** The moves clients of the page: kept from one opening of the panel to the next, so that their workers stay warm. */

import { MovesClient } from './moves-client.ts';
import { startWorker } from './start-worker.ts';

/** One answers the panel; the other what stands beside the answer, so that neither question ends the other. */
export type ClientUse = 'panel' | 'beside';

const clients = new Map<ClientUse, MovesClient>();

/** Null where the window has no workers. */
export function sharedClient(use: ClientUse = 'panel'): MovesClient | null {
  if (startWorker === null) return null;
  const client = clients.get(use) ?? new MovesClient(startWorker);
  clients.set(use, client);
  return client;
}
