/** The shelf as components read it. */

import { useEffect, useMemo, useSyncExternalStore } from 'react';
import { useBridge } from '../host/host-bridge.ts';
import { ShelfKeeper, type ShelfState } from './shelf-keeper.ts';

export function useShelf(): { readonly keeper: ShelfKeeper; readonly state: ShelfState } {
  const bridge = useBridge();
  const keeper = useMemo(() => new ShelfKeeper(bridge), [bridge]);
  useEffect(() => void keeper.read(), [keeper]);
  const state = useSyncExternalStore(keeper.subscribe, keeper.getState);
  return { keeper, state };
}
