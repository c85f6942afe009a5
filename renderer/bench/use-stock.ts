/** The shelf as the bench needs it: read when the bench is shown and again when the window is looked at. */

import { useEffect, useState } from 'react';
import type { StockItem } from '../../core/index.ts';
import type { HostBridge } from '../../electron/bridge/contract.ts';

/** Null until it was read; an unreadable shelf leaves bends unmarked rather than wrongly marked. */
export function useStock(bridge: HostBridge): readonly StockItem[] | null {
  const [stock, setStock] = useState<readonly StockItem[] | null>(null);
  useEffect(() => {
    let isShown = true;
    const read = async () => {
      const reply = await bridge.call('listStock', {}).catch(() => null);
      if (isShown && reply?.ok === true) setStock(reply.value.stock.map((stored) => stored.item));
    };
    const onFocus = () => void read();
    void read();
    window.addEventListener('focus', onFocus);
    return () => {
      isShown = false;
      window.removeEventListener('focus', onFocus);
    };
  }, [bridge]);
  return stock;
}
