/** The pages of what is chosen, drawn by the host anew whenever the choice or the header changes. */

import { useEffect, useRef, useState } from 'react';
import type { RequestOf, ResponseOf } from '../../electron/bridge/contract.ts';
import { useAsk } from '../host/host-bridge.ts';
import { useSettled } from '../ui/hooks/use-settled.ts';

export type Drawing = RequestOf<'drawPages'>['drawing'];
export type PaperName = RequestOf<'drawPages'>['paper'];

export type Drawn =
  /** The pages of before, if there are any, stay until the new ones are there. */
  | ({ readonly kind: 'drawing' } & ResponseOf<'drawPages'>)
  | ({ readonly kind: 'drawn' } & ResponseOf<'drawPages'>)
  | { readonly kind: 'failed'; readonly words: string };

const NONE: ResponseOf<'drawPages'> = { pages: [], missing: [] };

/** @param drawing must stay the same object while nothing in it changes */
export function usePages(drawing: Drawing, paper: PaperName): Drawn {
  const ask = useAsk();
  const settled = useSettled(drawing);
  const [drawn, setDrawn] = useState<Drawn>({ kind: 'drawing', ...NONE });
  /** Counts what was asked: an answer that another question has overtaken is not shown. */
  const asked = useRef(0);
  useEffect(() => {
    asked.current += 1;
    const mine = asked.current;
    setDrawn((before) => (before.kind === 'failed' ? { kind: 'drawing', ...NONE } : { ...before, kind: 'drawing' }));
    void ask('drawPages', { drawing: settled, paper }).then((answer) => {
      if (asked.current !== mine) return;
      setDrawn(answer.ok ? { kind: 'drawn', ...answer.value } : { kind: 'failed', words: answer.words });
    });
    return () => {
      asked.current += 1;
    };
  }, [ask, settled, paper]);
  return drawn;
}
