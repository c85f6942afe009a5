/** What the first new row of a kind starts with: the tube that the shop last had in hand. */

import { type Header, typedText } from '../../core/index.ts';
import type { ItemKind } from './new-item-row.tsx';
import { nextRow, type RowTexts, textsOf } from './shelf-columns.ts';
import type { Stored } from './shelf-keeper.ts';

/** Tube and CLR of the header in hand. */
export type TubeInHand = Pick<Header['settings'], 'tube' | 'clr'>;

/** Of the row of the kind that was added last; where there is none, of the header in hand; else nothing. */
export function startOf(kind: ItemKind, stock: readonly Stored[], inHand: TubeInHand | null): RowTexts {
  const last = stock.findLast(({ item }) => item.kind === kind)?.item;
  if (last !== undefined) return nextRow(textsOf(last), kind);
  if (inHand === null) return {};
  const { material, od, wall } = inHand.tube;
  return {
    material,
    od: typedText(od),
    wall: typedText(wall),
    ...(kind === 'bend' ? { clr: typedText(inHand.clr) } : {}),
  };
}
