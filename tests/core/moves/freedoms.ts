/** Pairs of questions of which the second leaves the search more freedom than the first. */

import type { Header, Piece, Primary } from '../../../core/header/header.ts';
import type { Move } from '../../../core/moves/move.ts';
import type { MoveOptions } from '../../../core/moves/question.ts';
import { suggestMoves } from '../../../core/moves/suggest-moves.ts';
import type { StockBend, StockItem } from '../../../core/stock/stock-item.ts';
import { inches, millimetres, mmOf } from '../../../core/units/length.ts';
import { seededRandom } from '../path/made-primaries.ts';
import { fittedHeader, lengthOf, pick, shopPrimary } from './made-headers.ts';

export interface Question {
  readonly header: Header;
  readonly options: MoveOptions;
}

export interface Freedom {
  readonly name: string;
  readonly less: (random: () => number) => Question;
  readonly more: (less: Question, random: () => number) => Question;
}

const CLRS_MM = [50.8, 57.15, 63.5, 76.2, 82.55, 88.9, 95.25, 101.6, 114.3, 127, 139.7, 152.4];

function stockBend(clrMm: number, angleDeg = 180): StockBend {
  return {
    kind: 'bend',
    id: `shelf-${clrMm}-${angleDeg}`,
    material: '304 stainless',
    od: inches(1.75),
    wall: inches(0.065),
    count: 4,
    note: '',
    clr: millimetres(clrMm),
    angleDeg,
    legs: [millimetres(0), millimetres(0)],
  };
}

export function shelfOf(clrs: number, angleDeg = 180): readonly StockItem[] {
  return CLRS_MM.slice(0, clrs).map((clrMm) => stockBend(clrMm, angleDeg));
}

/** Off its length by 5 to 20 mm, or off its inlet as well; some pieces planned, some locked. */
export function offHeader(random: () => number): Question {
  const pieces = 6 + Math.floor(random() * 5);
  const states = pick(random, [['tacked'], ['tacked', 'tacked', 'planned'], ['tacked', 'cut', 'welded']] as const);
  const primary = shopPrimary({ pieces, random, states, lockedPart: pick(random, [0, 0.15, 0.3]) });
  const byMm = (random() < 0.5 ? -1 : 1) * (5 + Math.round(random() * 30) / 2);
  return {
    header: fittedHeader(primary, { targetMm: lengthOf(primary) + byMm, slipMm: pick(random, [0, 0, 3, 6]) }),
    options: { maxMoves: 1 },
  };
}

function withSettings({ header, options }: Question, set: Partial<Header['settings']>): Question {
  return { header: { ...header, settings: { ...header.settings, ...set } }, options };
}

function withPrimary({ header, options }: Question, change: (primary: Primary) => Primary): Question {
  return { header: { ...header, primaries: header.primaries.map(change) }, options };
}

function twice(length: { readonly value: number; readonly unit: 'mm' | 'in' }) {
  return { ...length, value: 2 * length.value };
}

/** A larger shelf: what was there stays. */
export const MORE_STOCK: Freedom = {
  name: 'more stock',
  less: (random) => {
    const { header } = offHeader(random);
    return { header, options: { maxMoves: 1, stock: shelfOf(pick(random, [1, 2, 3, 7]), pick(random, [90, 180])) } };
  },
  more: ({ header, options }, random) => {
    const count = (options.stock ?? []).length;
    const more = count + 1 + Math.floor(random() * 5);
    return { header, options: { ...options, stock: [...(options.stock ?? []), ...shelfOf(more).slice(count)] } };
  },
};

export const FREEDOMS: readonly Freedom[] = [
  {
    name: 'a wider band',
    less: offHeader,
    more: (less) => {
      const { minus, plus } = less.header.settings.tolerance;
      return withSettings(less, { tolerance: { minus: twice(minus), plus: twice(plus) } });
    },
  },
  {
    name: 'a wider closure',
    less: offHeader,
    more: (less) => {
      const { gap, tiltDeg } = less.header.settings.closure;
      return withSettings(less, { closure: { gap: twice(gap), tiltDeg: 2 * tiltDeg } });
    },
  },
  {
    name: 'more slip',
    less: offHeader,
    more: ({ header, options }) => ({
      header: {
        ...header,
        collectors: header.collectors.map((collector) => ({
          ...collector,
          inlets: collector.inlets.map((inlet) => ({
            ...inlet,
            slip: {
              deeper: millimetres(mmOf(inlet.slip.deeper) + 4),
              shallower: millimetres(mmOf(inlet.slip.shallower) + 4),
            },
          })),
        })),
      },
      options,
    }),
  },
  {
    name: 'a shorter shortest straight',
    less: offHeader,
    more: (less) => withSettings(less, { shortestStraight: millimetres(6) }),
  },
  {
    name: 'a lock let go',
    less: (random) => {
      const question = offHeader(random);
      return withPrimary(question, ({ pieces, ...primary }) => {
        const at = Math.floor(random() * pieces.length);
        return {
          ...primary,
          pieces: pieces.map((piece, index): Piece => ({ ...piece, locked: piece.locked || index === at })),
        };
      });
    },
    more: (less, random) =>
      withPrimary(less, ({ pieces, ...primary }) => {
        const locked = pieces.flatMap((piece, index) => (piece.locked ? [index] : []));
        const freed = pick(random, locked);
        return {
          ...primary,
          pieces: pieces.map((piece, index) => (index === freed ? { ...piece, locked: false } : piece)),
        };
      }),
  },
  {
    name: 'one more joint allowed',
    less: (random) => {
      const { header, options } = offHeader(random);
      return { header, options: { ...options, maxJoints: 1 + Math.floor(random() * 4) } };
    },
    more: ({ header, options }) => ({ header, options: { ...options, maxJoints: (options.maxJoints ?? 0) + 1 } }),
  },
];

export interface Tried {
  readonly compared: number;
  readonly lost: readonly string[];
  readonly dearer: readonly string[];
}

function bestOf({ header, options }: Question): Move | 'done' | null {
  const outcome = suggestMoves(header, 'own', options);
  if (outcome.kind === 'found') return outcome.moves[0] ?? null;
  return outcome.reason.kind === 'nothingToDo' ? 'done' : null;
}

/** Both questions asked of so many random headers that have a move with the lesser freedom. */
export function tryFreedom({ less, more }: Freedom, headers: number, firstSeed = 1): Tried {
  const lost: string[] = [];
  const dearer: string[] = [];
  let compared = 0;
  for (let seed = firstSeed; compared < headers; seed += 1) {
    const random = seededRandom(seed * 7_368_787);
    const narrow = less(random);
    const before = bestOf(narrow);
    if (before === null || before === 'done') continue;
    compared += 1;
    const after = bestOf(more(narrow, random));
    // Nothing to do is the cheapest move there is.
    if (after === 'done') continue;
    if (after === null) lost.push(`seed ${seed}`);
    else if (priceOf(after, before) > 0) dearer.push(`seed ${seed}: ${told(before)} became ${told(after)}`);
  }
  return { compared, lost, dearer };
}

function priceOf({ cost: a }: Move, { cost: b }: Move): number {
  return a.bendsAdded - b.bendsAdded || a.jointsMade - b.jointsMade || a.newCuts - b.newCuts;
}

function told({ cost: { bendsAdded, jointsMade, newCuts } }: Move): string {
  return `${bendsAdded} bends, ${jointsMade} joints, ${newCuts} cuts`;
}
