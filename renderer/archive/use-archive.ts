/** The archive's answer to what stands in the search fields, some rows at a time. */

import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import type { LengthUnit } from '../../core/index.ts';
import type { ResponseOf } from '../../electron/bridge/contract.ts';
import { useAsk } from '../host/host-bridge.ts';
import type { ArchiveRow } from './archive-row.tsx';
import { readSearch, type SearchProblems, type SearchTexts } from './archive-search.ts';

export interface Found {
  /** The first of those found. Null until the first answer. Kept while a field cannot be read. */
  readonly rows: readonly ArchiveRow[] | null;
  /** How many are found in all. */
  readonly count: number;
  /** How many of those were asked for: what is left may be shown on request. */
  readonly askedFor: number;
  /** Whom the rows are in order of likeness to; null: the last finished is first. */
  readonly like: ResponseOf<'searchArchive'>['like'];
  readonly problems: SearchProblems;
  /** Why the archive could not be read; null when it could. */
  readonly words: string | null;
}

const MORE_ROWS = 48;
/** Heights in CSS pixels at desk size, where the most rows fit: a row, and what stands above the first. */
const ROW_PX = 53;
const HEAD_PX = 150;

/** As many as the window shows: more would only keep the next key waiting. */
function firstRows(): number {
  return Math.min(MORE_ROWS, Math.max(8, Math.ceil((window.innerHeight - HEAD_PX) / ROW_PX)));
}

const NO_PROBLEMS: SearchProblems = {};
export const NOTHING_YET: Found = { rows: null, count: 0, askedFor: 0, like: null, problems: NO_PROBLEMS, words: null };

/**
 * Asks at every key; rows stay until others take their place, so that nothing flickers. `showMore` adds rows to those shown.
 */
export function useArchive(
  texts: SearchTexts,
  unit: LengthUnit,
  likeId: string | null,
): { readonly found: Found; readonly showMore: () => void } {
  const ask = useAsk();
  const [found, setFound] = useState(NOTHING_YET);
  const latest = useRef(0);
  const question = useMemo(() => ({ texts, unit, likeId }), [texts, unit, likeId]);
  const answered = useRef<typeof question | null>(null);
  const search = useCallback(
    async (from: number) => {
      latest.current += 1;
      const turn = latest.current;
      const read = readSearch(question.texts, question.unit);
      if (!read.ok) return setFound((before) => ({ ...before, problems: read.problems }));
      const most = from === 0 ? firstRows() : MORE_ROWS;
      const answer = await ask('searchArchive', { ...read.search, likeId: question.likeId, from, most });
      // Only what was asked last counts, whatever comes when.
      if (turn !== latest.current) return;
      if (answer.ok) answered.current = question;
      setFound((before) =>
        answer.ok
          ? foundAfter(before, answer.value, { from, most })
          : { ...before, problems: NO_PROBLEMS, words: answer.words },
      );
    },
    [ask, question],
  );
  useEffect(() => void search(0), [search]);
  const { askedFor } = found;
  const showMore = useCallback(() => {
    // More of what is not asked any more would stand below rows of what is, and would come before them.
    if (answered.current === question) void search(askedFor);
  }, [search, askedFor, question]);
  return { found, showMore };
}

/** The answer instead of what was found before or, where it does not begin at the first row, below it. */
export function foundAfter(
  before: Found,
  { rows: answered, count, like }: ResponseOf<'searchArchive'>,
  { from, most }: { readonly from: number; readonly most: number },
): Found {
  const rows = asBefore(before.rows ?? [], answered);
  return {
    rows: from === 0 ? rows : joined(before.rows ?? [], rows),
    count,
    askedFor: from + most,
    like: sameText(before.like, like) ? before.like : like,
    problems: NO_PROBLEMS,
    words: null,
  };
}

/** A header that was finished meanwhile moves the others on: none is shown twice. */
function joined(before: readonly ArchiveRow[], more: readonly ArchiveRow[]): readonly ArchiveRow[] {
  const known = new Set(before.map(({ headerId }) => headerId));
  return [...before, ...more.filter(({ headerId }) => !known.has(headerId))];
}

/** Rows that say what they said before stay the same objects, so that they are not drawn again. */
function asBefore(before: readonly ArchiveRow[], now: readonly ArchiveRow[]): readonly ArchiveRow[] {
  const known = new Map(before.map((row) => [row.headerId, row]));
  return now.map((row) => {
    const kept = known.get(row.headerId);
    return kept !== undefined && sameText(kept, row) ? kept : row;
  });
}

function sameText(before: unknown, now: unknown): boolean {
  return JSON.stringify(before) === JSON.stringify(now);
}
