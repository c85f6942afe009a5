/** Theme and density: put on the document at once, kept by the host. */

import { useCallback, useEffect, useRef, useState } from 'react';
import type { HostBridge, RequestOf } from '../../../electron/bridge/contract.ts';
import { pageTimers } from '../../ui/timers.ts';
import { StandpointKeeper } from './standpoint-keeper.ts';

type Kept = RequestOf<'savePreferences'>['preferences'];
/** Where headers are looked at from is kept apart: it changes by hand, and draws nothing but the stage. */
export type Preferences = Omit<Kept, 'standpoints'>;

export const DENSITIES = [
  { id: 'bench', name: 'Bench: large, for gloves' },
  { id: 'desk', name: 'Desk: denser' },
] as const;

export const THEMES = [
  { id: 'system', name: 'As the system' },
  { id: 'light', name: 'Light' },
  { id: 'dark', name: 'Dark' },
] as const;

/** Sets what theme.css looks at. `system` leaves the choice to the platform. */
export function showPreferences(preferences: Preferences, root: HTMLElement = document.documentElement): void {
  if (preferences.theme === 'system') root.removeAttribute('data-theme');
  else root.setAttribute('data-theme', preferences.theme);
  root.setAttribute('data-density', preferences.density);
}

/** Where headers are looked at from, and the way to save what is not saved yet. */
export function useStandpoints(bridge: HostBridge, atStart: Kept, preferences: Preferences): StandpointKeeper {
  const latest = useRef(preferences);
  useEffect(() => {
    latest.current = preferences;
  }, [preferences]);
  const [keeper] = useState(
    () =>
      new StandpointKeeper({
        atStart: atStart.standpoints ?? [],
        save: (standpoints) => {
          const { theme, density } = latest.current;
          void bridge.call('savePreferences', { preferences: { theme, density, standpoints: [...standpoints] } });
        },
        timers: pageTimers,
      }),
  );
  useEffect(() => {
    window.addEventListener('pagehide', keeper.flush);
    return () => window.removeEventListener('pagehide', keeper.flush);
  }, [keeper]);
  return keeper;
}

/** Shown at once; should the host fail to keep them, they hold for this session and nothing is lost. */
export function usePreferences(
  bridge: HostBridge,
  atStart: Preferences,
): readonly [Preferences, (change: Partial<Preferences>) => void] {
  const [preferences, setPreferences] = useState(atStart);
  const change = useCallback(
    (set: Partial<Preferences>) => {
      const next = { ...preferences, ...set };
      setPreferences(next);
      showPreferences(next);
      void bridge.call('savePreferences', { preferences: next });
    },
    [bridge, preferences],
  );
  return [preferences, change];
}
