/** Keeps the host's copy of half-typed text up to date, so that a crash does not take it. */

import { startOf } from '../../core/index.ts';
import type { HostBridge } from '../../electron/bridge/contract.ts';
import type { Draft } from './session-state.ts';

/** The contract takes no more of one text, in UTF-16 units. */
const DRAFT_LIMIT = 400;

/** A name ends in what changes while the field stays: the primary of the entry line, the column of a row. */
function placeOf(field: string): string {
  return field.slice(0, Math.max(0, field.lastIndexOf(':')));
}

/**
 * Of several fields that hold text the one typed into last is kept, and when that is taken, the one before it.
 * One request is in flight at a time, whatever the speed of typing.
 * A failure is not shown: the next keystroke tries again, and the text is still in its field.
 */
export class DraftKeeper {
  readonly #bridge: HostBridge;
  readonly #headerId: string;
  readonly #mayClear: () => boolean;
  /** By place, the one typed into last at the end. */
  readonly #drafts = new Map<string, Draft>();
  /** Since text was last taken or given up, nothing has been typed. */
  #isBetweenTexts = false;
  /** What the host has; undefined: not known, since an answer did not come. */
  #kept: Draft | null | undefined;
  #isCarried = false;
  /** A save was on its way when a request that carries text left: which of them comes later is not known. */
  #isOvertaken = false;
  #inFlight: Promise<void> | null = null;

  /** `mayClear` says whether an accepted text's step is on disk: before that, its draft is the only safe copy. */
  constructor(bridge: HostBridge, headerId: string, options: { kept: Draft | null; mayClear: () => boolean }) {
    this.#bridge = bridge;
    this.#headerId = headerId;
    this.#kept = options.kept;
    if (options.kept !== null) this.#drafts.set(placeOf(options.kept.field), options.kept);
    this.#mayClear = options.mayClear;
  }

  /** `field` names where the text stands; empty text means that there is nothing to keep. */
  typed(field: string, text: string): void {
    const place = placeOf(field);
    this.#isBetweenTexts = text === '';
    this.#drafts.delete(place);
    if (text !== '') this.#drafts.set(place, { field, text: startOf(text, DRAFT_LIMIT) });
    this.pump();
  }

  /** What stands in the field, typed and neither taken nor given up; empty when there is nothing. */
  textIn(field: string): string {
    return this.#drafts.get(placeOf(field))?.text ?? '';
  }

  /**
   * The latest text, for a request with all the steps that are not on disk yet to carry along: then text goes in the same
   * moment that its entry is kept. Undefined: the host has it. Until `carried` nothing else is sent, so that no older text overtakes.
   */
  carry(): Draft | null | undefined {
    const latest = this.#latest();
    if (this.#isKept(latest)) return undefined;
    this.#isCarried = true;
    this.#isOvertaken = this.#inFlight !== null;
    return latest;
  }

  /** The request that carried the text was answered, or was not (`isKept` false). */
  carried(draft: Draft | null, isKept: boolean): void {
    this.#isCarried = false;
    this.#kept = isKept && !this.#isOvertaken ? draft : undefined;
  }

  /** Sends the latest text if the host does not have it. */
  pump(): void {
    const latest = this.#latest();
    if (this.#inFlight !== null || this.#isCarried || this.#isKept(latest)) return;
    if (this.#isBetweenTexts && !this.#mayClear()) return;
    this.#inFlight = this.#save(latest);
  }

  /** Settles when nothing is on its way. */
  async idle(): Promise<void> {
    while (this.#inFlight !== null) await this.#inFlight;
  }

  #latest(): Draft | null {
    return [...this.#drafts.values()].at(-1) ?? null;
  }

  #isKept(latest: Draft | null): boolean {
    return this.#kept !== undefined && latest?.field === this.#kept?.field && latest?.text === this.#kept?.text;
  }

  async #save(draft: Draft | null): Promise<void> {
    const request = { headerId: this.#headerId, draft };
    const reply = await this.#bridge.call('saveDraft', request).catch(() => null);
    this.#inFlight = null;
    this.#kept = reply?.ok === true ? draft : undefined;
    if (reply?.ok === true) this.pump();
  }
}
