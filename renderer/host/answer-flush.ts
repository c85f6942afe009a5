/** What the page answers when its window is about to close: that all is saved, or what is not. */

import { shortened } from '../../core/index.ts';
import type { HostBridge, Unsaved } from '../../electron/bridge/contract.ts';

/** A disk in good order takes a hundredth of this. */
const HELD_UP_MS = 1_000;

interface Held {
  /** Brings in all that is held; resolves when it is on disk. */
  readonly flush: () => Promise<void>;
  readonly unsaved: () => Unsaved | null;
}

/** Says at once when saving is held up, so that the person can be asked; and in any case when all is on disk after all. */
export async function answerFlush(bridge: HostBridge, { flush, unsaved }: Held): Promise<void> {
  const flushed = flush();
  const heldUp = setTimeout(() => {
    const left = unsaved();
    if (left !== null) void bridge.call('notYetSaved', { ...left, reason: shortened(left.reason, 2_000) });
  }, HELD_UP_MS);
  await flushed;
  clearTimeout(heldUp);
  await bridge.call('readyToClose', {});
}
