/** What may come one frame after the figures that a key changes, so that these are not held up by it. */

import { startTransition, useEffect, useState } from 'react';
import { afterFrame } from '../after-frame.ts';

/** The value, one frame later; React draws it between keys, and begins anew when another key comes in meanwhile. */
export function useFollowing<Value>(value: Value): Value {
  const [shown, show] = useState(() => value);
  // None is called off by the next: else keys in quick succession would keep all of them from the screen.
  useEffect(() => afterFrame(() => startTransition(() => show(() => value))), [value]);
  return shown;
}
