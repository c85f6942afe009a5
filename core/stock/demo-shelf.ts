/** A shelf to try the program with; made up, in sizes that bends of tube are commonly bought in. */

import { inches } from '../units/length.ts';
import type { StockBend, StockItem } from './stock-item.ts';

const TUBE = { material: '304 stainless', od: inches(1.75), wall: inches(0.065), note: '' };
const BIG = { ...TUBE, od: inches(2.5) };

/** CLR, angle, both legs, count, cost and least count of bends of the demo header's tube. */
const BENDS: readonly (readonly [
  clr: number,
  angle: number,
  leg: number,
  count: number,
  cost: number,
  least: number,
])[] = [
  [2, 90, 3, 2, 21, 2],
  [2, 45, 3, 4, 17.5, 2],
  [2.5, 180, 4, 3, 34, 2],
  [2.5, 90, 4, 8, 22, 4],
  [3, 180, 4, 2, 36, 2],
  [3, 90, 4, 10, 23.5, 6],
  [3, 60, 4, 5, 20, 2],
  [3, 45, 4, 3, 18.5, 4],
  [3, 30, 4, 6, 17, 2],
  [4, 90, 6, 4, 27, 2],
  [4, 45, 6, 0, 22, 2],
];

export function demoShelf(newId: () => string): readonly StockItem[] {
  const bends = BENDS.map((row) => bendOf(row, newId()));
  const straight = (length: number, count: number) =>
    ({ kind: 'straight', id: newId(), length: inches(length), count }) as const;
  return [
    ...bends,
    ...bends.slice(5, 6).map((source) => remnantOf(source, newId())),
    { ...TUBE, ...straight(48, 4), cost: 41, least: 2 },
    { ...TUBE, ...straight(11.5, 2), cutFrom: null, note: 'offcuts' },
    { ...BIG, ...straight(48, 1), cost: 58, least: 1 },
    { ...bendOf([3, 45, 4, 3, 31, 1], newId()), ...BIG },
  ];
}

function bendOf([clr, angleDeg, leg, count, cost, least]: (typeof BENDS)[number], id: string): StockBend {
  const legs = [inches(leg), inches(leg)] as const;
  return { ...TUBE, kind: 'bend', id, clr: inches(clr), angleDeg, legs, count, cost, least };
}

/** What is left of a bend of which one end was cut off with its leg. */
function remnantOf({ id: cutFrom, cost: _whole, least: _wanted, ...source }: StockBend, id: string): StockBend {
  return { ...source, id, angleDeg: 38, legs: [inches(4), inches(0)], count: 1, cutFrom };
}
