/** What a header needs in all, against the shelf. */

import { type Header, type Tube, tubeOf } from '../header/header.ts';
import { pieceLength } from '../length/piece-length.ts';
import { type Length, mmOf } from '../units/length.ts';
import { isOfTube, isSameSize, shelfMatch } from './shelf-match.ts';
import type { StockItem } from './stock-item.ts';

interface NeedCommon {
  readonly tube: Tube;
  /** Pieces not yet cut. */
  readonly pieces: number;
  /** Of these, how many no single item on hand could supply, each taken by itself. */
  readonly lacking: number;
  /** Items on hand of this tube, and of this CLR for bends. */
  readonly onHand: number;
}

export type HeaderNeed =
  /** Degrees of one CLR in all, and those on hand. */
  | (NeedCommon & {
      readonly kind: 'bend';
      readonly clr: Length;
      readonly neededDeg: number;
      readonly onHandDeg: number;
    })
  /** Straight tube in all, and on hand: straights alone, without the legs of bends. */
  | (NeedCommon & { readonly kind: 'straight'; readonly neededMm: number; readonly onHandMm: number });

/**
 * One line for each CLR of each tube, tightest first, and one for its straights; tubes in the order in which the header has
 * them. Pieces that are cut, tacked or welded need nothing more; pie-cut bends are cut from straight tube, by their length
 * along the middle. Kerf and facing are left to the cut plan: a line that is enough here can still fall short there.
 */
export function headerNeeds(header: Header, stock: readonly StockItem[]): readonly HeaderNeed[] {
  const groups: { readonly tube: Tube; readonly pieces: Header['primaries'][number]['pieces'][number][] }[] = [];
  for (const primary of header.primaries) {
    const tube = tubeOf(header, primary);
    const pieces = primary.pieces.filter(({ state }) => state === 'planned');
    const known = groups.find((group) => isOfTube(group.tube, tube));
    if (known === undefined) groups.push({ tube, pieces: [...pieces] });
    else known.pieces.push(...pieces);
  }
  return groups.flatMap(({ tube, pieces }) => [
    ...bendNeeds(tube, pieces, stock),
    ...straightNeeds(tube, pieces, stock),
  ]);
}

type Pieces = readonly Header['primaries'][number]['pieces'][number][];

function bendNeeds(tube: Tube, pieces: Pieces, stock: readonly StockItem[]): readonly HeaderNeed[] {
  const bends = pieces.flatMap((piece) => (piece.kind === 'bend' ? [piece] : []));
  const clrs: Length[] = [];
  for (const { clr } of bends) if (!clrs.some((known) => isSameSize(mmOf(known), mmOf(clr)))) clrs.push(clr);
  clrs.sort((a, b) => mmOf(a) - mmOf(b));
  return clrs.map((clr): HeaderNeed => {
    const needed = bends.filter((bend) => isSameSize(mmOf(bend.clr), mmOf(clr)));
    const there = stock.flatMap((item) =>
      item.kind === 'bend' && isOfTube(item, tube) && isSameSize(mmOf(item.clr), mmOf(clr)) ? [item] : [],
    );
    return {
      kind: 'bend',
      tube,
      clr,
      pieces: needed.length,
      lacking: needed.filter((bend) => shelfMatch(there, bend, tube) !== 'onShelf').length,
      neededDeg: sum(needed.map(({ angleDeg }) => angleDeg)),
      onHand: sum(there.map(({ count }) => count)),
      onHandDeg: sum(there.map(({ count, angleDeg }) => count * angleDeg)),
    };
  });
}

function straightNeeds(tube: Tube, pieces: Pieces, stock: readonly StockItem[]): readonly HeaderNeed[] {
  const lengthsMm = pieces.filter(({ kind }) => kind !== 'bend').map((piece) => pieceLength(piece));
  if (lengthsMm.length === 0) return [];
  const there = stock.flatMap((item) => (item.kind === 'straight' && isOfTube(item, tube) ? [item] : []));
  const longestMm = Math.max(0, ...there.filter(({ count }) => count > 0).map(({ length }) => mmOf(length)));
  return [
    {
      kind: 'straight',
      tube,
      pieces: lengthsMm.length,
      lacking: lengthsMm.filter((lengthMm) => lengthMm > longestMm && !isSameSize(lengthMm, longestMm)).length,
      neededMm: sum(lengthsMm),
      onHand: sum(there.map(({ count }) => count)),
      onHandMm: sum(there.map(({ count, length }) => count * mmOf(length))),
    },
  ];
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
