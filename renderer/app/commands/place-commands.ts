/** Commands that take back, change how things are shown, or go somewhere. */

import type { OfferedCommand } from '../../commands/command.ts';
import type { Workshop } from '../use-workshop.ts';
import { otherUnit, showLengthsIn } from './display-unit.ts';
import { FINISHED, NO_HEADER, NOT_ON_BENCH } from './unavailable-words.ts';
import type { HeaderState } from './use-header-state.ts';

function whyNoUndo({ session, screen }: Workshop, isFinished: boolean): string | null {
  if (session === null) return NO_HEADER;
  // What would be taken back should be in sight.
  if (screen.kind !== 'bench') return NOT_ON_BENCH;
  return isFinished ? FINISHED : null;
}

/** `hear` is told what was taken back or done again, for those who cannot see it. */
export function editCommands(
  workshop: Workshop,
  state: HeaderState,
  hear: (words: string) => void,
): readonly OfferedCommand[] {
  const { session, screen } = workshop;
  // There they are the shelf's own.
  if (screen.kind === 'shelf') return [];
  const blocked = whyNoUndo(workshop, state.isFinished);
  return [
    {
      id: 'undo',
      name: state.undoLabel === null ? 'Undo' : `Undo: ${state.undoLabel}`,
      unavailable: blocked ?? (state.undoLabel === null ? 'Nothing to undo.' : null),
      run: () => {
        if (session?.undo() === true) hear(`Undone: ${state.undoLabel}`);
      },
    },
    {
      id: 'redo',
      name: state.redoLabel === null ? 'Redo' : `Redo: ${state.redoLabel}`,
      unavailable: blocked ?? (state.redoLabel === null ? 'Nothing to redo.' : null),
      run: () => {
        if (session?.redo() === true) hear(`Redone: ${state.redoLabel}`);
      },
    },
  ];
}

export function viewCommands(workshop: Workshop): readonly OfferedCommand[] {
  const { session, preferences, changePreferences } = workshop;
  const isDark =
    preferences.theme === 'dark' ||
    (preferences.theme === 'system' && matchMedia('(prefers-color-scheme: dark)').matches);
  const switchUnit = () => {
    if (session === null) return;
    showLengthsIn(session, otherUnit(session.getState().header.settings.display));
  };
  return [
    { id: 'displayUnit', unavailable: session === null ? NO_HEADER : null, run: switchUnit },
    {
      id: 'switchTheme',
      name: isDark ? 'Light theme' : 'Dark theme',
      run: () => changePreferences({ theme: isDark ? 'light' : 'dark' }),
    },
    {
      id: 'switchDensity',
      name: preferences.density === 'bench' ? 'Desk size' : 'Bench size',
      run: () => changePreferences({ density: preferences.density === 'bench' ? 'desk' : 'bench' }),
    },
  ];
}

export function placeCommands(workshop: Workshop): readonly OfferedCommand[] {
  const { goTo, setDialog, session } = workshop;
  return [
    { id: 'goBench', run: () => goTo(workshop.benchScreen) },
    {
      id: 'goCutPlan',
      unavailable: session === null ? NO_HEADER : null,
      run: () => {
        if (session !== null) goTo({ kind: 'cutplan', headerId: session.headerId });
      },
    },
    {
      id: 'goSheets',
      unavailable: session === null ? NO_HEADER : null,
      run: () => {
        if (session !== null) goTo({ kind: 'sheet', headerId: session.headerId });
      },
    },
    { id: 'goShelf', run: () => goTo({ kind: 'shelf' }) },
    { id: 'goArchive', run: () => goTo({ kind: 'archive' }) },
    { id: 'goShopFigures', run: () => goTo({ kind: 'shopFigures' }) },
    {
      id: 'similarHeaders',
      unavailable: session === null ? NO_HEADER : null,
      run: () => {
        if (session !== null) goTo({ kind: 'archive', likeId: session.headerId });
      },
    },
    { id: 'importStock', run: () => workshop.imports.ask('stock') },
    { id: 'findCommand', run: () => setDialog('search') },
    { id: 'preferences', run: () => setDialog('preferences') },
    { id: 'exportFinished', run: () => setDialog('exportFinished') },
    { id: 'bringBackFinished', run: () => setDialog('bringBack') },
    { id: 'backUpEverything', run: () => setDialog('backUpEverything') },
    { id: 'restoreEverything', run: () => setDialog('restoreEverything') },
    { id: 'showBackups', run: () => setDialog('backups') },
    { id: 'showHelp', run: () => goTo({ kind: 'help', page: '' }) },
    { id: 'showKeys', run: () => setDialog('keys') },
    { id: 'showAbout', run: () => goTo({ kind: 'help', page: 'about' }) },
  ];
}
