/** What the shelf lacks of a bend that is being typed: said, and never refused. */

import { type EntryReadBack, type Header, type StockItem, shelfMatch } from '../../../core/index.ts';

const WORDS = {
  none: 'Not on the shelf in this tube and CLR.',
  noneLeft: 'None of it left on the shelf.',
  tooFewDegrees: 'On the shelf only with fewer degrees.',
} as const;

/** Empty when every bend is there, where the shelf could not be read, or while nothing at all is kept on it. */
export function lackWords(
  { pieces }: EntryReadBack,
  stock: readonly StockItem[] | null,
  tube: Header['settings']['tube'],
): string {
  if (stock === null || stock.length === 0) return '';
  const lacks = pieces.flatMap((piece) => {
    const match = piece.kind === 'bend' ? shelfMatch(stock, piece, tube) : 'onShelf';
    return match === 'onShelf' ? [] : [WORDS[match]];
  });
  return [...new Set(lacks)].join(' ');
}
