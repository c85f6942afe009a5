/** The shelf as the host has it, and the ways to change it; one change is on its way at a time. */

import type { ShelfChange, StockItem } from '../../core/index.ts';
import type { HostBridge, ResponseOf } from '../../electron/bridge/contract.ts';
import { askHost } from '../host/host-bridge.ts';
import type { ReadRow } from './shelf-columns.ts';

type Listed = ResponseOf<'listStock'>;
export type Stored = Listed['stock'][number];
type Written = ResponseOf<'changeShelf'>;

export interface ShelfState {
  /** Null until it has been read. */
  readonly stock: readonly Stored[] | null;
  /** Why it could not be read; null when it could. */
  readonly words: string | null;
  /** What the store said to the last change; empty before the first. */
  readonly status: '' | 'Saving…' | 'All saved' | 'Not saved';
  /** What was read by a rule in the last change; empty when nothing was. */
  readonly said: string;
  /** What undo and redo come to next. */
  readonly history: Listed['history'];
}

const CHANGED_ELSEWHERE =
  'This item was changed in another window. The row now shows it as it is; press Enter again to put yours in its place.';
const GONE = 'This item is not on the shelf any more.';

/** Every change answers with the words of a refusal, or null once it is on disk. */
export class ShelfKeeper {
  readonly #bridge: HostBridge;
  readonly #listeners = new Set<() => void>();
  #state: ShelfState = { stock: null, words: null, status: '', said: '', history: { undo: null, redo: null } };
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
    this.#set(answer.ok ? { ...answer.value, words: null } : { words: answer.words });
  };

  /** `said`: what was read by a rule in them. */
  add(items: readonly StockItem[], said = ''): Promise<string | null> {
    return this.#inTurn(async () => {
      const words = await this.#make(items.map((item) => ({ kind: 'add', item })));
      if (words === null) this.#set({ said });
      return words;
    });
  }

  /** `change` is given the item as it is when its turn comes, so that quick edits of one row do not undo each other. */
  change(itemId: string, change: (item: StockItem) => ReadRow): Promise<string | null> {
    return this.#inTurn(async () => {
      const now = this.#find(itemId);
      if (now === undefined) return GONE;
      const changed = change(now.item);
      if (!changed.ok) return Object.values(changed.problems).join(' ');
      const words = await this.#make([{ kind: 'set', item: changed.item, revision: now.revision }]);
      if (words === null) this.#set({ said: changed.said });
      return words;
    });
  }

  /** Puts items in the place of what they were when they were read, all in one step. */
  replace(items: readonly StockItem[]): Promise<string | null> {
    return this.#inTurn(async () => {
      const found = items.map((item) => ({ item, now: this.#find(item.id) }));
      const changes = found.flatMap(({ item, now }): ShelfChange[] =>
        now === undefined ? [] : [{ kind: 'set', item, revision: now.revision }],
      );
      return changes.length < items.length ? GONE : await this.#make(changes);
    });
  }

  /** Takes rows off the shelf; the book keeps them. */
  remove(itemIds: readonly string[]): Promise<string | null> {
    return this.#inTurn(async () => {
      const found = itemIds.flatMap((itemId) => this.#find(itemId) ?? []);
      if (found.length < itemIds.length) return GONE;
      return await this.#make(found.map(({ item, revision }) => ({ kind: 'retire', itemId: item.id, revision })));
    });
  }

  /** Takes the last step back, or does it again. */
  turnBack(action: 'undo' | 'redo'): Promise<string | null> {
    return this.#inTurn(async () => {
      const next = this.#state.history[action];
      if (next === null) return null;
      this.#set({ status: 'Saving…' });
      const answer = await askHost(this.#bridge, 'turnShelfBack', { action, step: next.step });
      return answer.ok ? await this.#done(answer.value) : await this.#refused(answer);
    });
  }

  async #make(changes: ShelfChange[]): Promise<string | null> {
    this.#set({ status: 'Saving…', said: '' });
    const answer = await askHost(this.#bridge, 'changeShelf', { changes, because: '' });
    return answer.ok ? await this.#done(answer.value) : await this.#refused(answer);
  }

  async #done({ stock, gone }: Written): Promise<null> {
    if (stock === null) await this.read();
    else this.#set({ stock: this.#with(stock, gone) });
    const history = await askHost(this.#bridge, 'readShelfHistory', {});
    this.#set({ status: 'All saved', ...(history.ok && { history: history.value }) });
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

  /** Changed rows in their places, new ones at the end. */
  #with(changed: readonly Stored[], gone: readonly string[]): readonly Stored[] {
    const byId = new Map(changed.map((stored) => [stored.item.id, stored]));
    const stay = (this.#state.stock ?? []).filter(({ item }) => !gone.includes(item.id));
    const there = new Set(stay.map(({ item }) => item.id));
    const added = changed.filter(({ item }) => !there.has(item.id));
    return [...stay.map((stored) => byId.get(stored.item.id) ?? stored), ...added];
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

type Refusal = Extract<Awaited<ReturnType<typeof askHost<'changeShelf'>>>, { ok: false }>;
