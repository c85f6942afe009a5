/** Asks the host for earlier steps before undo or redo comes to them. */

import type { HostBridge } from '../../electron/bridge/contract.ts';
import type { StepHistory } from './step-history.ts';

export class ReadAhead {
  readonly #bridge: HostBridge;
  readonly #headerId: string;
  #isAsking = false;

  constructor(bridge: HostBridge, headerId: string) {
    this.#bridge = bridge;
    this.#headerId = headerId;
  }

  /** Until enough is at hand; `grown` is told of each answer. Without an answer the next undo asks again. */
  async fill(history: StepHistory, grown: () => void): Promise<void> {
    for (let wanted = history.wanted(); wanted !== null && !this.#isAsking; wanted = history.wanted()) {
      this.#isAsking = true;
      const request = { headerId: this.#headerId, ...wanted };
      const reply = await this.#bridge.call('readHistory', request).catch(() => null);
      this.#isAsking = false;
      if (reply?.ok !== true) return;
      history.extend(wanted, reply.value);
      grown();
    }
  }
}
