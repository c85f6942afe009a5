/** Starts the moves worker from the page's own files, as the page's policy asks. */

import type { WorkerLike } from './moves-client.ts';
import workerAddress from './moves-worker.ts?worker&url';

/** The part of the Trusted Types API that is used; the compiler's own DOM types leave it out. */
interface TrustedTypes {
  createPolicy(
    name: string,
    rules: { createScriptURL: (address: string) => string },
  ): {
    createScriptURL(address: string): string;
  };
}

let policy: ReturnType<TrustedTypes['createPolicy']> | null = null;

/** The policy vouches for this one address and refuses every other. */
function trusted(address: string): string {
  const { trustedTypes } = globalThis as { readonly trustedTypes?: TrustedTypes };
  if (trustedTypes === undefined) return address;
  policy ??= trustedTypes.createPolicy('evenrun-moves', {
    createScriptURL: (asked) => {
      if (asked !== workerAddress) throw new TypeError('Not the moves worker');
      return asked;
    },
  });
  return policy.createScriptURL(address);
}

/** Null where the window has no workers. */
export const startWorker: (() => WorkerLike) | null =
  typeof Worker === 'undefined'
    ? null
    : () => new Worker(trusted(workerAddress), { type: 'module', name: 'moves' }) as WorkerLike;
