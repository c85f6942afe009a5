/** The header as the host has it now, which another window may have changed or taken away. */

import type { Header } from '../../core/index.ts';
import type { HostBridge, Reply } from '../../electron/bridge/contract.ts';
import type { Conflict, OpenedHeader } from './session-state.ts';

export class VersionOnDisk {
  readonly #bridge: HostBridge;
  readonly #headerId: string;

  constructor(bridge: HostBridge, headerId: string) {
    this.#bridge = bridge;
    this.#headerId = headerId;
  }

  /** Null where it is gone, or the host does not answer. */
  async open(): Promise<OpenedHeader | null> {
    const reply = await this.#ask();
    return reply?.ok === true ? reply.value : null;
  }

  /** What is on disk beside what is here; null where the host does not say one way or the other. */
  async besides(mine: () => Omit<Conflict, 'theirs'>): Promise<Conflict | null> {
    const reply = await this.#ask();
    const isGone = reply?.ok === false && reply.problems.some((problem) => problem.kind === 'notFound');
    if (reply?.ok !== true && !isGone) return null;
    const theirs: Header | null = reply?.ok === true ? reply.value.header : null;
    return { theirs, ...mine() };
  }

  #ask(): Promise<Reply<'openHeader'> | null> {
    return this.#bridge.call('openHeader', { headerId: this.#headerId }).catch(() => null);
  }
}
