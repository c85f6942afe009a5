/** A value once it has stopped changing: for what may be drawn after the frame that answers a key. */

import { useEffect, useState } from 'react';

/** Long enough for that frame to be on the screen, too short for anyone to come looking meanwhile. */
const SETTLING_MS = 150;

/** The first value at once, every later one as soon as none has followed it for a moment. */
export function useSettled<Value>(value: Value): Value {
  const [settled, settle] = useState(() => value);
  useEffect(() => {
    const timer = setTimeout(() => settle(() => value), SETTLING_MS);
    return () => clearTimeout(timer);
  }, [value]);
  return settled;
}
