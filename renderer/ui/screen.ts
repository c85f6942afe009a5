/** Which screen is shown, kept in the address after the `#`, so that Back and a reload work. */

import { useCallback, useSyncExternalStore } from 'react';

export type Screen =
  | { readonly kind: 'headers' }
  | { readonly kind: 'bench'; readonly headerId: string }
  /** Which stock a header's planned pieces are cut from. */
  | { readonly kind: 'cutplan'; readonly headerId: string }
  /** Build sheet, strips and fixture sheet of a header. */
  | { readonly kind: 'sheet'; readonly headerId: string }
  | { readonly kind: 'shelf' }
  /** With `likeId`, those most like that header first. */
  | { readonly kind: 'archive'; readonly likeId?: string }
  /** Two headers side by side. */
  | { readonly kind: 'compare'; readonly oneId: string; readonly otherId: string }
  /** How the shop has done, over all that it finished. */
  | { readonly kind: 'shopFigures' }
  | { readonly kind: 'help'; readonly page: string };

const ID = /^[A-Za-z0-9_-]{1,64}$/;

/** The screen that an address names; null when it names none of ours. */
export function readScreen(hash: string): Screen | null {
  const [kind, rest = '', last = ''] = hash.replace(/^#\/?/, '').split('/');
  switch (kind) {
    case 'headers':
    case 'shelf':
      return { kind };
    case 'figures':
      return { kind: 'shopFigures' };
    case 'archive':
      return ID.test(rest) ? { kind, likeId: rest } : { kind };
    case 'compare':
      return ID.test(rest) && ID.test(last) ? { kind, oneId: rest, otherId: last } : null;
    case 'bench':
    case 'cutplan':
    case 'sheet':
      return ID.test(rest) ? { kind, headerId: rest } : null;
    case 'help':
      return { kind, page: ID.test(rest) ? rest : '' };
    default:
      return null;
  }
}

export function writeScreen(screen: Screen): string {
  switch (screen.kind) {
    case 'bench':
    case 'cutplan':
    case 'sheet':
      return `#/${screen.kind}/${screen.headerId}`;
    case 'help':
      return screen.page === '' ? '#/help' : `#/help/${screen.page}`;
    case 'archive':
      return screen.likeId === undefined ? '#/archive' : `#/archive/${screen.likeId}`;
    case 'compare':
      return `#/compare/${screen.oneId}/${screen.otherId}`;
    case 'shopFigures':
      return '#/figures';
    default:
      return `#/${screen.kind}`;
  }
}

function subscribe(listener: () => void): () => void {
  window.addEventListener('hashchange', listener);
  return () => window.removeEventListener('hashchange', listener);
}

/** The screen in the address, or `fallback` when there is none; and the way to go to another. */
export function useScreen(fallback: Screen): readonly [Screen, (screen: Screen) => void] {
  const hash = useSyncExternalStore(subscribe, () => window.location.hash);
  const goTo = useCallback((screen: Screen) => {
    window.location.hash = writeScreen(screen);
  }, []);
  return [readScreen(hash) ?? fallback, goTo];
}
