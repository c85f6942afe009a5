/** The other headers that could be cut together with the one in hand. */

import { useEffect, useState } from 'react';
import { useAsk } from '../host/host-bridge.ts';

export interface OtherHeader {
  readonly headerId: string;
  readonly name: string;
}

/** As many as one plan may have beside the header in hand. */
const MOST = 39;

/** Those that are open, the latest changed first; none until they are read. */
export function useOtherHeaders(headerId: string): readonly OtherHeader[] {
  const ask = useAsk();
  const [others, setOthers] = useState<readonly OtherHeader[]>([]);
  useEffect(() => {
    let isShown = true;
    void ask('listHeaders', { place: 'bench' }).then((answer) => {
      if (!isShown || !answer.ok) return;
      const open = answer.value.headers.filter((one) => one.headerId !== headerId && one.state === 'open');
      setOthers(open.slice(0, MOST));
    });
    return () => {
      isShown = false;
    };
  }, [ask, headerId]);
  return others;
}
