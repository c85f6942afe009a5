/** Keeps where headers are looked at from: at once for this run, and on disk once the hand rests. */

import type { RequestOf } from '../../../electron/bridge/contract.ts';
import type { KeptBench } from '../../bench/layout/bench-sizes.ts';
import type { Timers } from '../../ui/timers.ts';

export type StandpointList = NonNullable<RequestOf<'savePreferences'>['preferences']['standpoints']>;
type Standpoint = StandpointList[number]['standpoint'];

/** So many headers are remembered on disk, those looked at last. */
const MOST = 10;
/** A turn by hand is many standpoints, and only the last one is worth a write. */
const REST_MS = 800;

interface KeeperParts {
  readonly atStart: StandpointList;
  readonly save: (standpoints: StandpointList) => void;
  readonly timers: Timers;
}

type KeptStandpoints = KeptBench['standpoints'];

export class StandpointKeeper implements KeptStandpoints {
  /** The one looked at last is at the end. */
  readonly #kept: Map<string, Standpoint>;
  readonly #save: KeeperParts['save'];
  readonly #timers: Timers;
  /** Null: all is saved. */
  #timer: unknown = null;

  constructor({ atStart, save, timers }: KeeperParts) {
    this.#kept = new Map(atStart.map(({ headerId, standpoint }) => [headerId, standpoint]));
    this.#save = save;
    this.#timers = timers;
  }

  readonly of = (headerId: string): Standpoint | null => this.#kept.get(headerId) ?? null;

  readonly keep = (headerId: string, standpoint: Standpoint): void => {
    this.#kept.delete(headerId);
    this.#kept.set(headerId, standpoint);
    if (this.#timer !== null) this.#timers.clear(this.#timer);
    this.#timer = this.#timers.set(this.flush, REST_MS);
  };

  /** Saves what the hand has not rested on yet. */
  readonly flush = (): void => {
    if (this.#timer === null) return;
    this.#timers.clear(this.#timer);
    this.#timer = null;
    this.#save([...this.#kept].slice(-MOST).map(([headerId, standpoint]) => ({ headerId, standpoint })));
  };
}
