/** The shelf as the host has it, and the ways to change it; one change is on its way at a time. */

import type { StockItem } from '../../core/index.ts';
import type { HostBridge, ResponseOf } from '../../electron/bridge/contract.ts';
import { askHost } from '../host/host-bridge.ts';
import type { ReadRow } from './shelf-columns.ts';

export type Stored = ResponseOf<'saveStockItem'>;

export interface ShelfState {
  /** Null until it has been read. */
  readonly stock: readonly Stored[] | null;
  /** Why it could not be read; null when it could. */
  readonly words: string | null;
  /** What the store said to the last change; empty before the first. */
  readonly status: '' | 'Saving…' | 'All saved' | 'Not saved';
}

const CHANGED_ELSEWHERE =
  'This item was changed in another window. The row now shows it as it is; press Enter again to put yours in its place.';
const GONE = 'This item is not on the shelf any more.';

/** Every change answers with the words of a refusal, or null once it is on disk. */
export class ShelfKeeper {
  readonly #bridge: HostBridge;
  readonly #listeners = new Set<() => void>();
  #state: ShelfState = { stock: null, words: null, status: '' };
  #lastTurn: Promise<unknown> = Promise.resolve();

  constructor(bridge: HostBridge) {
    this.#bridge = bridge;
  }

  readonly getState = (): ShelfState => this.#state;

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  readonly read = async (): Promise<void> => {
    const answer = await askHost(this.#bridge, 'listStock', {});
    this.#set(answer.ok ? { stock: answer.value.stock, words: null } : { words: answer.words });
  };

  add(item: StockItem): Promise<string | null> {
    return this.#inTurn(() => this.#save(item, null));
  }

  /** `change` is given the item as it is when its turn comes, so that quick edits of one row do not undo each other. */
  change(itemId: string, change: (item: StockItem) => ReadRow): Promise<string | null> {
    return this.#inTurn(async () => {
      const now = this.#find(itemId);
      if (now === undefined) return GONE;
      const changed = change(now.item);
      return changed.ok ? await this.#save(changed.item, now.revision) : Object.values(changed.problems).join(' ');
    });
  }

  remove(itemId: string): Promise<string | null> {
    return this.#inTurn(async () => {
      const now = this.#find(itemId);
      if (now === undefined) return GONE;
      this.#set({ status: 'Saving…' });
      const answer = await askHost(this.#bridge, 'removeStockItem', { itemId, baseRevision: now.revision });
      if (!answer.ok) return await this.#refused(answer);
      this.#set({ status: 'All saved', stock: this.#without(itemId) });
      return null;
    });
  }

  async #save(item: StockItem, baseRevision: number | null): Promise<string | null> {
    this.#set({ status: 'Saving…' });
    const answer = await askHost(this.#bridge, 'saveStockItem', { item, baseRevision });
    if (!answer.ok) return await this.#refused(answer);
    this.#set({ status: 'All saved', stock: [...this.#without(item.id), answer.value] });
    return null;
  }

  async #refused({ words, problems }: Refusal): Promise<string> {
    this.#set({ status: 'Not saved' });
    if (!problems.some((problem) => problem.kind === 'changedElsewhere')) return words;
    await this.read();
    return CHANGED_ELSEWHERE;
  }

  #find(itemId: string): Stored | undefined {
    return this.#state.stock?.find((stored) => stored.item.id === itemId);
  }

  #without(itemId: string): readonly Stored[] {
    return (this.#state.stock ?? []).filter((stored) => stored.item.id !== itemId);
  }

  #inTurn(task: () => Promise<string | null>): Promise<string | null> {
    const turn = this.#lastTurn.then(task);
    this.#lastTurn = turn.catch(() => undefined);
    return turn;
  }

  #set(change: Partial<ShelfState>): void {
    this.#state = { ...this.#state, ...change };
    for (const listener of [...this.#listeners]) listener();
  }
}

type Refusal = Extract<Awaited<ReturnType<typeof askHost<'saveStockItem'>>>, { ok: false }>;
