/** Headers that begin: blank ones, copies, and the ids that their parts get. */

import { inches } from '../units/length.ts';
import { closureAfter, defaultClosure } from './default-closure.ts';
import type { Header, Primary, Settings } from './header.ts';

/** A copy starts its own life: same content, open again. */
export interface HeaderName {
  readonly id: string;
  readonly name: string;
}

const TOLERANCE = { minus: inches(0.125), plus: inches(0.125) };

/** Where a new header starts from; every value is there to be changed. */
export const DEFAULT_SETTINGS: Settings = {
  target: { kind: 'longest' },
  tolerance: TOLERANCE,
  display: { kind: 'fraction', per: 16 },
  tube: { material: '304 stainless', od: inches(1.75), wall: inches(0.065) },
  clr: inches(3),
  weldShrinkage: inches(0),
  shortestStraight: inches(0.5),
  closure: defaultClosure(TOLERANCE, false),
  wantedGap: inches(0.25),
};

/**
 * An open header with nothing in it. Its settings follow those of the header worked on before it, which are the shop's
 * own; the target and what a weld takes off belong to one job and start anew. Null: there was none before it.
 */
export function newHeader({ id, name }: HeaderName, before: Settings | null = null): Header {
  const { target, weldShrinkage } = DEFAULT_SETTINGS;
  return {
    id,
    name,
    note: '',
    state: 'open',
    settings: before === null ? DEFAULT_SETTINGS : { ...before, target, weldShrinkage, closure: closureAfter(before) },
    primaries: [],
    collectors: [],
    obstacles: [],
  };
}

/** The same header under another id and name, open, its pieces as far built as they are. Ids inside it stay: they are unique within a header only. */
export function copyHeader(header: Header, { id, name }: HeaderName): Header {
  return { ...header, id, name, state: 'open' };
}

/** The primary as one that is yet to be made: nothing was measured on it. */
export function withoutMeasured({ measured: _, ...rest }: Primary): Primary {
  return rest;
}

/** The header once more, to be built from new tube: a copy whose pieces are all planned, and locked by nobody. */
export function rebuiltHeader(header: Header, as: HeaderName): Header {
  const primaries = header.primaries.map((primary) => ({
    ...withoutMeasured(primary),
    pieces: primary.pieces.map((piece) => ({ ...piece, state: 'planned' as const, locked: false })),
  }));
  return { ...copyHeader(header, as), primaries };
}

const ID_LETTERS = '0123456789abcdefghijklmnopqrstuvwxyz';
const ID_LENGTH = 16;

/**
 * A fresh id of 16 letters and digits, about 82 bits: enough that two never meet within a header or a shop.
 * `random` gives numbers in [0, 1), as Math.random does; tests hand in a seeded one.
 */
export function newId(random: () => number): string {
  const letter = () => ID_LETTERS[Math.floor(random() * ID_LETTERS.length)] ?? '0';
  return Array.from({ length: ID_LENGTH }, letter).join('');
}
