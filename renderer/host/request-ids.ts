/** Ids for requests that are done once: one that is sent again keeps its id until it is known what came of it. */

import type { Problem } from '../../core/index.ts';
import type { AskedOf, CallName, HostBridge, OnceCall, RequestOf } from '../../electron/bridge/contract.ts';
import { freshId } from '../ui/random-id.ts';

/** Fails to compile when a call is missing here. */
const ONCE: Readonly<Record<OnceCall, true>> = {
  createHeader: true,
  duplicateHeader: true,
  importHeader: true,
  addPicture: true,
  changeShelf: true,
  turnShelfBack: true,
  carryOutCutPlan: true,
};

/** By bridge and content, the ids of requests that may or may not have been done. */
const unsettled = new WeakMap<HostBridge, Map<string, string>>();

export interface Sent<Name extends CallName> {
  readonly request: RequestOf<Name>;
  /** To be told what came of it; null: there was no answer. */
  readonly answered: (problems: readonly Problem[] | null) => void;
}

/** The same thing asked again after a disk or the host failed is the same request. */
export function withRequestId<Name extends CallName>(bridge: HostBridge, name: Name, asked: AskedOf<Name>): Sent<Name> {
  if (!Object.hasOwn(ONCE, name)) return { request: asked as RequestOf<Name>, answered: () => undefined };
  const ids = unsettled.get(bridge) ?? new Map<string, string>();
  unsettled.set(bridge, ids);
  const content = `${name} ${JSON.stringify(asked)}`;
  const requestId = ids.get(content) ?? freshId();
  ids.set(content, requestId);
  const answered = (problems: readonly Problem[] | null) => {
    if (problems !== null && !problems.some(mayHaveBeenDone)) ids.delete(content);
  };
  return { request: { ...asked, requestId } as unknown as RequestOf<Name>, answered };
}

/** A disk that failed at the very end may have kept what it refused. */
function mayHaveBeenDone({ kind }: Problem): boolean {
  return kind === 'storage' || kind === 'internal';
}
