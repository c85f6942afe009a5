/** Thumbnails and verdicts of listed headers: read after the list stands, some at a time, so that none waits for them. */

import { useEffect, useMemo, useState } from 'react';
import { matchHeader } from '../../core/index.ts';
import { useAsk } from '../host/host-bridge.ts';
import { type StripPrimary, stripsOf } from '../ui/strip-preview.tsx';
import type { HeaderSummary } from './header-summary.ts';
import { tallyWords } from './header-tally.ts';

export interface HeaderPicture {
  readonly strips: readonly StripPrimary[];
  readonly tally: string;
}

const AT_ONCE = 8;

/** By header id and revision; one that cannot be read has none. */
export function useHeaderPictures(shown: readonly HeaderSummary[]): (summary: HeaderSummary) => HeaderPicture | null {
  const ask = useAsk();
  const [pictures, setPictures] = useState<ReadonlyMap<string, HeaderPicture>>(new Map());
  const wanted = useMemo(
    () =>
      shown
        .filter((summary) => summary.pieceCount > 0)
        .map(keyOf)
        .join(' '),
    [shown],
  );
  useEffect(() => {
    let isShown = true;
    const read = async () => {
      const keys = wanted.split(' ').filter(Boolean);
      for (let from = 0; from < keys.length && isShown; from += AT_ONCE) {
        const batch = new Map(keys.slice(from, from + AT_ONCE).map((key) => [key.split('@')[0] ?? '', key]));
        const answer = await ask('lookAtHeaders', { headerIds: [...batch.keys()] });
        if (!isShown || !answer.ok) return;
        const found = answer.value.headers.map((header): [string, HeaderPicture] => [
          batch.get(header.id) ?? '',
          { strips: stripsOf(header), tally: tallyWords(matchHeader(header)) },
        ]);
        setPictures((before) => new Map([...before, ...found]));
      }
    };
    void read();
    return () => {
      isShown = false;
    };
  }, [ask, wanted]);
  return (summary) => pictures.get(keyOf(summary)) ?? null;
}

function keyOf({ headerId, revision }: HeaderSummary): string {
  return `${headerId}@${revision}`;
}
