/** Escape while nothing has the focus: a button that was pressed has gone, and the focus has not come back into the dialog yet. */

import { type RefObject, useEffect, useRef } from 'react';

/** The dialog over all others takes it; `isActive` is false where it must not. The ref is for its overlay. */
export function useLoneEscape(isActive: boolean, leave: () => void): RefObject<HTMLDivElement | null> {
  const overlay = useRef<HTMLDivElement>(null);
  const latest = useRef(leave);
  latest.current = leave;
  useEffect(() => {
    if (!isActive) return;
    const onKey = ({ key }: KeyboardEvent) => {
      const topmost = [...document.querySelectorAll('.modal-overlay')].at(-1);
      if (key === 'Escape' && document.activeElement === document.body && topmost === overlay.current) latest.current();
    };
    document.addEventListener('keydown', onKey);
    return () => document.removeEventListener('keydown', onKey);
  }, [isActive]);
  return overlay;
}
