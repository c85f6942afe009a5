/** A header of two empty primaries, open against a bridge in memory, with timers that run when told. */

import type { Edit } from '../../../core/edits/edit.ts';
import type { Header, Straight } from '../../../core/header/header.ts';
import { newHeader } from '../../../core/header/new-header.ts';
import { inches } from '../../../core/units/length.ts';
import { HeaderSession } from '../../../renderer/session/header-session.ts';
import type { Timers } from '../../../renderer/ui/timers.ts';
import type { MemoryBridge } from '../../memory-bridge.ts';

export const HEADER: Header = {
  ...newHeader({ id: 'h1', name: 'Test four' }),
  primaries: [
    { id: 'p1', name: '1', tube: null, port: null, inletId: null, pieces: [] },
    { id: 'p2', name: '2', tube: null, port: null, inletId: null, pieces: [] },
  ],
};

export function straight(id: string, lengthIn: number): Straight {
  return { kind: 'straight', id, length: inches(lengthIn), state: 'tacked', locked: false, note: '' };
}

export function add(id: string, lengthIn = 2): Edit {
  return { kind: 'addPiece', primaryId: 'p1', piece: straight(id, lengthIn), at: 0 };
}

/** Timers that run when told: no test waits for real time. */
export class HandTimers implements Timers {
  readonly #acts = new Map<number, { readonly act: () => void; readonly afterMs: number }>();
  #next = 1;
  readonly waitsMs: number[] = [];
  readonly set = (act: () => void, afterMs: number): unknown => {
    this.waitsMs.push(afterMs);
    this.#acts.set(this.#next, { act, afterMs });
    return this.#next++;
  };
  readonly clear = (timer: unknown): void => {
    this.#acts.delete(timer as number);
  };
  run(): void {
    const due = [...this.#acts.values()];
    this.#acts.clear();
    for (const { act } of due) act();
  }
}

export async function settle(): Promise<void> {
  for (let turn = 0; turn < 30; turn += 1) await Promise.resolve();
}

export function open(bridge: MemoryBridge, timers = new HandTimers()): { session: HeaderSession; timers: HandTimers } {
  const session = new HeaderSession(bridge.headerOf('h1'), { bridge, random: Math.random, timers });
  return { session, timers };
}

export const piecesOf = (header: Header) => header.primaries[0]?.pieces.map((piece) => piece.id);
