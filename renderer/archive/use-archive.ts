/** The archive's answer to what stands in the search fields. */

import { useEffect, useState } from 'react';
import type { LengthUnit } from '../../core/index.ts';
import { useAsk } from '../host/host-bridge.ts';
import type { ArchiveRow } from './archive-row.tsx';
import { readSearch, type SearchProblems, type SearchTexts } from './archive-search.ts';

export interface Found {
  /** Null until the first answer. Kept while a field cannot be read. */
  readonly rows: readonly ArchiveRow[] | null;
  readonly problems: SearchProblems;
  /** Why the archive could not be read; null when it could. */
  readonly words: string | null;
}

/** Waits for a pause in typing, so that the list does not jump with every letter. */
const PAUSE_MS = 150;

export function useArchive(texts: SearchTexts, unit: LengthUnit): Found {
  const ask = useAsk();
  const [found, setFound] = useState<Found>({ rows: null, problems: {}, words: null });
  useEffect(() => {
    let isWanted = true;
    const search = async () => {
      const read = readSearch(texts, unit);
      if (!read.ok) return setFound((before) => ({ ...before, problems: read.problems }));
      const answer = await ask('searchArchive', read.search);
      if (!isWanted) return;
      setFound((before) =>
        answer.ok
          ? { rows: answer.value.rows, problems: {}, words: null }
          : { rows: before.rows, problems: {}, words: answer.words },
      );
    };
    const timer = setTimeout(() => void search(), PAUSE_MS);
    return () => {
      isWanted = false;
      clearTimeout(timer);
    };
  }, [ask, texts, unit]);
  return found;
}
