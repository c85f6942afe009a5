/** Puts this window's version of a header beside the one on disk, as a header of its own. */

import { copyHeader, type Header, nameWithEnding } from '../../core/index.ts';
import type { HostBridge, RequestOf } from '../../electron/bridge/contract.ts';
import type { OpenedHeader } from './session-state.ts';

export class CopyBeside {
  readonly #bridge: HostBridge;
  readonly #newId: () => string;
  /** What was asked and not heard of: asked again to the letter, so that the host makes one copy of it. */
  #asked: { readonly mine: Header; readonly request: RequestOf<'importHeader'> } | null = null;

  constructor(bridge: HostBridge, newId: () => string) {
    this.#bridge = bridge;
    this.#newId = newId;
  }

  /** The copy, once it is on disk; null where the host did not answer or refused. */
  async make(mine: Header): Promise<OpenedHeader | null> {
    if (this.#asked?.mine !== mine) {
      const header = copyHeader(mine, { id: this.#newId(), name: nameWithEnding(mine.name, ' (mine)') });
      this.#asked = { mine, request: { requestId: this.#newId(), header } };
    }
    const reply = await this.#bridge.call('importHeader', this.#asked.request).catch(() => null);
    if (reply?.ok !== true) return null;
    this.#asked = null;
    return reply.value;
  }
}
