/** The one moves client of the page: kept from one opening of the panel to the next, so that its worker stays warm. */

import { MovesClient } from './moves-client.ts';
import { startWorker } from './start-worker.ts';

let client: MovesClient | null = null;

/** Null where the window has no workers. */
export function sharedClient(): MovesClient | null {
  if (startWorker !== null) client ??= new MovesClient(startWorker);
  return client;
}
