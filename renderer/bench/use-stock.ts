/** The shelf as the bench needs it: read when the bench is shown, when undo or redo moved stock, and when the window is looked at. */

import { useEffect, useState } from 'react';
import type { StockItem } from '../../core/index.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { useSession } from '../session/use-session.ts';
import { afterPaint } from '../ui/after-paint.ts';

/** Null until it was read; an unreadable shelf leaves bends unmarked rather than wrongly marked. */
export function useStock(session: HeaderSession): readonly StockItem[] | null {
  const moves = useSession(session, (state) => state.stockMoves);
  const [stock, setStock] = useState<readonly StockItem[] | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: each move of stock is a reason to read again
  useEffect(() => {
    let isShown = true;
    const read = async () => {
      const reply = await session.bridge.call('listStock', {}).catch(() => null);
      if (isShown && reply?.ok === true) setStock(reply.value.stock.map((stored) => stored.item));
    };
    const onFocus = () => void read();
    const callOff = afterPaint(() => void read());
    window.addEventListener('focus', onFocus);
    return () => {
      isShown = false;
      callOff();
      window.removeEventListener('focus', onFocus);
    };
  }, [session, moves]);
  return stock;
}
