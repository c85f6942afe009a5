/** Commands that take back, change how things are shown, or go somewhere. */

import type { Command } from '../../commands/command.ts';
import type { Workshop } from '../use-workshop.ts';
import { otherUnit } from './display-unit.ts';
import { FINISHED, NO_HEADER, NOT_ON_BENCH } from './unavailable-words.ts';
import type { HeaderState } from './use-header-state.ts';

function whyNoUndo({ session, screen }: Workshop, isFinished: boolean): string | null {
  if (session === null) return NO_HEADER;
  // What would be taken back should be in sight.
  if (screen.kind !== 'bench') return NOT_ON_BENCH;
  return isFinished ? FINISHED : null;
}

export function editCommands(workshop: Workshop, state: HeaderState): readonly Command[] {
  const { session } = workshop;
  const blocked = whyNoUndo(workshop, state.isFinished);
  return [
    {
      id: 'undo',
      name: state.undoLabel === null ? 'Undo' : `Undo: ${state.undoLabel}`,
      group: 'Edit',
      keys: ['Mod+Z'],
      unavailable: blocked ?? (state.undoLabel === null ? 'Nothing to undo.' : null),
      run: () => session?.undo(),
    },
    {
      id: 'redo',
      name: state.redoLabel === null ? 'Redo' : `Redo: ${state.redoLabel}`,
      group: 'Edit',
      keys: ['Mod+Shift+Z', 'Mod+Y'],
      unavailable: blocked ?? (state.redoLabel === null ? 'Nothing to redo.' : null),
      run: () => session?.redo(),
    },
  ];
}

export function viewCommands(workshop: Workshop, isFinished: boolean): readonly Command[] {
  const { session, preferences, changePreferences } = workshop;
  const isDark =
    preferences.theme === 'dark' ||
    (preferences.theme === 'system' && matchMedia('(prefers-color-scheme: dark)').matches);
  const switchUnit = () => {
    if (session === null) return;
    session.apply({ kind: 'setSettings', set: { display: otherUnit(session.getState().header.settings.display) } });
  };
  return [
    {
      id: 'displayUnit',
      name: 'Switch between inches and millimetres',
      group: 'View',
      words: 'unit mm fraction',
      unavailable: session === null ? NO_HEADER : isFinished ? FINISHED : null,
      run: switchUnit,
    },
    {
      id: 'switchTheme',
      name: isDark ? 'Light theme' : 'Dark theme',
      group: 'View',
      words: 'colours night',
      run: () => changePreferences({ theme: isDark ? 'light' : 'dark' }),
    },
    {
      id: 'switchDensity',
      name: preferences.density === 'bench' ? 'Desk size' : 'Bench size',
      group: 'View',
      words: 'density large gloves dense',
      run: () => changePreferences({ density: preferences.density === 'bench' ? 'desk' : 'bench' }),
    },
  ];
}

export function placeCommands(workshop: Workshop): readonly Command[] {
  const { goTo, setDialog } = workshop;
  return [
    { id: 'goBench', name: 'Bench', group: 'Go to', keys: ['Mod+Shift+B'], run: () => goTo(workshop.benchScreen) },
    {
      id: 'goShelf',
      name: 'Shelf',
      group: 'Go to',
      keys: ['Mod+Shift+S'],
      words: 'stock bends straights',
      run: () => goTo({ kind: 'shelf' }),
    },
    {
      id: 'goArchive',
      name: 'Archive',
      group: 'Go to',
      keys: ['Mod+Shift+A'],
      words: 'finished',
      run: () => goTo({ kind: 'archive' }),
    },
    { id: 'importStock', name: 'Import stock', group: 'Shelf', words: 'csv', run: () => workshop.imports.ask('stock') },
    { id: 'findCommand', name: 'Find a command', group: 'Program', keys: ['Mod+K'], run: () => setDialog('search') },
    {
      id: 'preferences',
      name: 'Preferences',
      group: 'Program',
      keys: ['Mod+,'],
      words: 'settings theme size',
      run: () => setDialog('preferences'),
    },
    { id: 'showBackups', name: 'Backups', group: 'Program', words: 'restore', run: () => setDialog('backups') },
    { id: 'showHelp', name: 'Help', group: 'Program', keys: ['F1'], run: () => goTo({ kind: 'help', page: '' }) },
    {
      id: 'showKeys',
      name: 'Keys',
      group: 'Program',
      keys: ['?'],
      words: 'shortcuts keyboard',
      run: () => setDialog('keys'),
    },
    {
      id: 'showAbout',
      name: 'About Evenrun',
      group: 'Program',
      words: 'version',
      run: () => goTo({ kind: 'help', page: 'about' }),
    },
  ];
}
