/** What the archive's search has found, in words. */

import { countOf } from '../ui/words/spoken.ts';
import type { Found } from './use-archive.ts';

export function foundWords(
  { rows, count, like, words }: Pick<Found, 'rows' | 'count' | 'like' | 'words'>,
  isSearching: boolean,
): string {
  if (words !== null) return words;
  if (rows === null) return '';
  if (count > 0) {
    const all = countOf(count, 'finished header');
    return rows.length < count ? `${all}, the first ${rows.length} shown.` : `${all}.`;
  }
  if (isSearching) return 'No finished header matches. Clear a field to find more.';
  // It is not in the list of those like it, so a finished one may be all that there is.
  if (like !== null) return `No other header is finished yet that could be like ${like.name}.`;
  return 'Nothing is finished yet. When a header is welded and checked, choose "Finish header" on the bench: it goes here with its figures, and the next one can start as a copy of it.';
}
