/** Whether the page is being printed, in time for the paper to show it. */

import { useEffect, useState } from 'react';
import { flushSync } from 'react-dom';

export function usePrinting(): boolean {
  const [isPrinting, setIsPrinting] = useState(false);
  useEffect(() => {
    const print = matchMedia('print');
    // The paper is drawn right after this: what changes must be in place when it returns.
    const look = () => flushSync(() => setIsPrinting(print.matches));
    print.addEventListener('change', look);
    return () => print.removeEventListener('change', look);
  }, []);
  return isPrinting;
}
