/** An act that takes its time and must not be begun again meanwhile. */

import { useCallback, useRef, useState } from 'react';

/** Whether it is under way, and what begins it; beginning it meanwhile does nothing. */
export function useOneAtATime(act: () => Promise<void>): readonly [boolean, () => void] {
  const [isUnderWay, setUnderWay] = useState(false);
  const underWay = useRef(false);
  const begin = useCallback(() => {
    if (underWay.current) return;
    underWay.current = true;
    setUnderWay(true);
    void act().finally(() => {
      underWay.current = false;
      setUnderWay(false);
    });
  }, [act]);
  return [isUnderWay, begin];
}
