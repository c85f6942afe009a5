/** Stands between the page's host and the backend, and holds or breaks calls, as a slow disk or a dead backend would. */

import type { CallName } from '../../electron/bridge/contract.ts';

interface Calls {
  call(name: string, request: unknown): Promise<unknown>;
}

type Way = 'open' | 'held' | 'broken';

export class CallGate implements Calls {
  readonly #inner: Calls;
  #way: Way = 'open';
  #affected: ReadonlySet<string> | null = null;
  #waiting: (() => void)[] = [];
  #handled = new Map<string, number>();
  #asked = 0;

  constructor(inner: Calls) {
    this.#inner = inner;
  }

  /** Calls of these names, or all, wait until `open` is called. */
  hold(...names: readonly CallName[]): void {
    this.#way = 'held';
    this.#affected = names.length === 0 ? null : new Set(names);
  }

  /** Calls of these names, or all, get no answer at all, as when the backend has died. */
  break(...names: readonly CallName[]): void {
    this.#way = 'broken';
    this.#affected = names.length === 0 ? null : new Set(names);
  }

  open(): void {
    this.#way = 'open';
    const waiting = this.#waiting;
    this.#waiting = [];
    for (const proceed of waiting) proceed();
  }

  /** How many calls have come, of whatever name, answered or not. */
  get asked(): number {
    return this.#asked;
  }

  /** How many calls of the name the backend has answered. */
  answered(name: CallName): number {
    return this.#handled.get(name) ?? 0;
  }

  async call(name: string, request: unknown): Promise<unknown> {
    this.#asked += 1;
    const isAffected = this.#affected === null || this.#affected.has(name);
    if (this.#way === 'broken' && isAffected) throw new Error('the test has broken this call');
    if (this.#way === 'held' && isAffected) await new Promise<void>((resolve) => this.#waiting.push(resolve));
    const reply = await this.#inner.call(name, request);
    this.#handled.set(name, this.answered(name as CallName) + 1);
    return reply;
  }
}
