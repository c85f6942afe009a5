/** The window's title: what is on it, then the program. */

import { useEffect } from 'react';
import type { HeaderSession } from '../session/header-session.ts';
import type { Screen } from '../ui/screen.ts';
import { useHeaderState } from './commands/use-header-state.ts';

const SCREEN_TITLES: Readonly<Record<Screen['kind'], string>> = {
  headers: 'Headers',
  bench: 'Bench',
  cutplan: 'Cut plan',
  sheet: 'Sheets',
  shelf: 'Shelf',
  archive: 'Archive',
  compare: 'Compare',
  shopFigures: 'Shop figures',
  help: 'Help',
};

export function useWindowTitle(screen: Screen, session: HeaderSession | null): void {
  const { name } = useHeaderState(session);
  const title = (screen.kind === 'bench' ? name : null) ?? SCREEN_TITLES[screen.kind];
  useEffect(() => {
    document.title = `${title} - Evenrun`;
  }, [title]);
}
