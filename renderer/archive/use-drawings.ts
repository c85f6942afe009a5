/** Small drawings of the headers in a list: made after the list stands, some at a time, so that none waits for them. */

import { useEffect, useMemo, useRef, useState } from 'react';
import { flatViews, type Header } from '../../core/index.ts';
import { useAsk } from '../host/host-bridge.ts';
import { type StripPrimary, stripsOf } from '../ui/strip-preview.tsx';
import { type FlatDrawing, largestView, smallDrawing } from './drawing-layout.ts';

/** Without places in space, a header is drawn as strips of its pieces. */
export type RowDrawing =
  | { readonly kind: 'flat'; readonly drawing: FlatDrawing }
  | { readonly kind: 'strips'; readonly primaries: readonly StripPrimary[] };

const AT_ONCE = 8;
/** Drawings kept beside those of the rows shown; a finished header does not change, so one that was drawn need not be read again. */
const KEPT = 400;

/** By header id; one that is not read yet, or cannot be, has none. */
export function useDrawings(rows: readonly { readonly headerId: string }[] | null): ReadonlyMap<string, RowDrawing> {
  const ask = useAsk();
  const kept = useRef<ReadonlyMap<string, RowDrawing>>(new Map());
  const [drawings, setDrawings] = useState(kept.current);
  const wanted = useMemo(() => (rows ?? []).map(({ headerId }) => headerId).join(' '), [rows]);
  useEffect(() => {
    let isShown = true;
    const read = async () => {
      const ids = wanted.split(' ').filter((id) => id !== '');
      const missing = ids.filter((id) => !kept.current.has(id));
      for (let from = 0; from < missing.length && isShown; from += AT_ONCE) {
        const answer = await ask('lookAtHeaders', { headerIds: missing.slice(from, from + AT_ONCE) });
        if (!isShown || !answer.ok) return;
        const drawn = answer.value.headers.map((header): [string, RowDrawing] => [header.id, drawingOf(header)]);
        kept.current = keptDrawings([...kept.current, ...drawn], new Set(ids));
        setDrawings(kept.current);
      }
    };
    void read();
    return () => {
      isShown = false;
    };
  }, [ask, wanted]);
  return drawings;
}

/** All that are shown, and of the others those that came last. */
export function keptDrawings<Drawing>(
  drawings: readonly (readonly [id: string, drawing: Drawing])[],
  shown: ReadonlySet<string>,
): ReadonlyMap<string, Drawing> {
  const others = drawings.filter(([id]) => !shown.has(id)).slice(-KEPT);
  return new Map([...others, ...drawings.filter(([id]) => shown.has(id))]);
}

function drawingOf(header: Header): RowDrawing {
  const view = largestView(flatViews(header).views);
  const drawing = view && smallDrawing(view);
  return drawing === null ? { kind: 'strips', primaries: stripsOf(header) } : { kind: 'flat', drawing };
}
