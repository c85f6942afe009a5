/** Which finished headers of a list are not what was finished: looked at few at a time, once the list is shown. */

import { useEffect, useState } from 'react';
import { useAsk } from '../host/host-bridge.ts';

/** All their bytes are read, pictures too; other calls wait no longer than for so many. */
const AT_ONCE = 4;

/**
 * The ids of those that were found altered so far. Each is looked at once for as long as the list stands; who may not have been looked at yet is not
 * said to be sound.
 */
export function useAltered(headerIds: readonly string[]): ReadonlySet<string> {
  const ask = useAsk();
  const [altered, setAltered] = useState<ReadonlySet<string>>(new Set());
  const [asked] = useState(() => new Set<string>());
  useEffect(() => {
    let isWanted = true;
    const look = async () => {
      for (;;) {
        const next = headerIds.filter((id) => !asked.has(id)).slice(0, AT_ONCE);
        if (next.length === 0 || !isWanted) return;
        for (const id of next) asked.add(id);
        const answer = await ask('checkFinished', { headerIds: next });
        const found = answer.ok ? answer.value.altered.map(({ headerId }) => headerId) : [];
        if (found.length > 0) setAltered((before) => new Set([...before, ...found]));
      }
    };
    void look();
    return () => {
      isWanted = false;
    };
  }, [ask, asked, headerIds]);
  return altered;
}
