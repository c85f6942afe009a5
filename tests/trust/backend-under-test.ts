/** The program's own backend, as both hosts make it, with typed calls for tests. */

import type { AskedOf, CallName, Reply, ResponseOf } from '../../electron/bridge/contract.ts';
import { handedOver } from '../../electron/output/saved-file.ts';
import { createBackend } from '../../electron/store/backend.ts';
import { withRequestId } from '../request-ids.ts';

export interface TestBackend {
  /** The dispatcher's own door: any name, any request. */
  readonly dispatch: (name: string, request: unknown) => Promise<unknown>;
  readonly call: <Name extends CallName>(name: Name, request: AskedOf<Name>) => Promise<Reply<Name>>;
  /** As `call`, for steps of a test that must succeed. */
  readonly must: <Name extends CallName>(name: Name, request: AskedOf<Name>) => Promise<ResponseOf<Name>>;
  readonly close: () => Promise<void>;
}

/** Makes no backup by itself unless `backupAfterMs` is given, so that none runs into what a test measures. */
export function openBackend(folder: string, random: () => number, backupAfterMs: number | null = null): TestBackend {
  const backend = createBackend({
    folder,
    version: '0.0.0-test',
    clock: () => new Date(),
    random,
    host: {
      saveFile: async (...file) => handedOver(...file),
      readyToClose: () => undefined,
    },
    backupAfterMs,
  });
  const call = async <Name extends CallName>(name: Name, request: AskedOf<Name>): Promise<Reply<Name>> =>
    (await backend.call(name, withRequestId(name, request))) as Reply<Name>;
  const must = async <Name extends CallName>(name: Name, request: AskedOf<Name>): Promise<ResponseOf<Name>> => {
    const reply = await call(name, request);
    if (!reply.ok) throw new Error(`${name} was refused: ${JSON.stringify(reply.problems)}`);
    return reply.value;
  };
  return { dispatch: backend.call, call, must, close: () => backend.close() };
}
