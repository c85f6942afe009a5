/** Keeps the host's copy of half-typed text up to date, so that a crash does not take it. */

import type { HostBridge } from '../../electron/bridge/contract.ts';
import type { Draft } from './session-state.ts';

/**
 * The latest text wins; one request is in flight at a time, whatever the speed of typing.
 * A failure is not shown: the next keystroke tries again, and the text is still in its field.
 */
export class DraftKeeper {
  readonly #bridge: HostBridge;
  readonly #headerId: string;
  readonly #mayClear: () => boolean;
  #latest: Draft | null = null;
  #kept: Draft | null;
  #inFlight: Promise<void> | null = null;

  /** `mayClear` says whether an accepted text's step is on disk: before that, its draft is the only safe copy. */
  constructor(bridge: HostBridge, headerId: string, options: { kept: Draft | null; mayClear: () => boolean }) {
    this.#bridge = bridge;
    this.#headerId = headerId;
    this.#kept = options.kept;
    this.#latest = options.kept;
    this.#mayClear = options.mayClear;
  }

  /** `field` names where the text stands; empty text means that there is nothing to keep. */
  typed(field: string, text: string): void {
    this.#latest = text === '' ? null : { field, text: text.slice(0, 400) };
    this.pump();
  }

  /** Sends the latest text if the host does not have it. */
  pump(): void {
    if (this.#inFlight !== null || this.#isKept()) return;
    if (this.#latest === null && !this.#mayClear()) return;
    this.#inFlight = this.#save(this.#latest);
  }

  /** Settles when nothing is on its way. */
  async idle(): Promise<void> {
    while (this.#inFlight !== null) await this.#inFlight;
  }

  #isKept(): boolean {
    return this.#latest?.field === this.#kept?.field && this.#latest?.text === this.#kept?.text;
  }

  async #save(draft: Draft | null): Promise<void> {
    const request = { headerId: this.#headerId, draft };
    const reply = await this.#bridge.call('saveDraft', request).catch(() => null);
    this.#inFlight = null;
    if (reply?.ok !== true) return;
    this.#kept = draft;
    this.pump();
  }
}
