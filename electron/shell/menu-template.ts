/** What stands in the menu bar, as Electron's template; who acts on it is handed in. */

import type { MenuItemConstructorOptions } from 'electron';
import { shortened } from '../../core/index.ts';

type Item = MenuItemConstructorOptions;

/** A header that was worked on lately. */
export interface RecentHeader {
  readonly headerId: string;
  readonly name: string;
}

export interface MenuActs {
  /** Tells the page that a command was chosen. */
  command(id: string): void;
  /** Lets the user choose a file to open. */
  openFile(): void;
  showDataFolder(): void;
}

export interface MenuState {
  readonly platform: NodeJS.Platform;
  readonly recent: readonly RecentHeader[];
}

/** The command that opens a header carries its id. */
export function openHeaderCommand(headerId: string): string {
  return `openHeader:${headerId}`;
}

const SEPARATOR: Item = { type: 'separator' };

/** A name in a menu: `&` would underline a letter, and a name may be long. */
function menuLabel(name: string): string {
  const shown = shortened(name, 60);
  return shown.replaceAll('&', '&&');
}

function recentItems(recent: readonly RecentHeader[], acts: MenuActs): Item[] {
  if (recent.length === 0) return [{ label: 'None yet', enabled: false }];
  return recent.map(({ headerId, name }) => ({
    label: menuLabel(name),
    click: () => acts.command(openHeaderCommand(headerId)),
  }));
}

/** Makes the items of the page's commands. The page hears its keys itself; the menu shows them, and acts on them on macOS only. */
function commandItems(acts: MenuActs) {
  return (label: string, id: string, accelerator?: string): Item => ({
    label,
    click: () => acts.command(id),
    ...(accelerator === undefined ? {} : { accelerator, registerAccelerator: false }),
  });
}

function fileMenu(acts: MenuActs, state: MenuState): Item {
  const command = commandItems(acts);
  return {
    label: '&File',
    submenu: [
      command('New header', 'newHeader', 'CmdOrCtrl+N'),
      { label: 'Open a header file…', click: () => acts.openFile() },
      { label: 'Recent headers', submenu: recentItems(state.recent, acts) },
      command('All headers', 'listHeaders', 'CmdOrCtrl+Shift+O'),
      SEPARATOR,
      command('Import a header or a list…', 'importFile', 'CmdOrCtrl+O'),
      command('Import shelf stock…', 'importStock'),
      command('Export header…', 'exportHeader', 'CmdOrCtrl+Shift+E'),
      command('Export shelf stock…', 'exportStock'),
      command('Make a backup now', 'saveNow', 'CmdOrCtrl+S'),
      command('Backups…', 'showBackups'),
      { label: 'Show the data folder', click: () => acts.showDataFolder() },
      SEPARATOR,
      ...(state.platform === 'darwin' ? [{ role: 'close' } as const] : preferencesAndQuit(acts)),
    ],
  };
}

function preferencesAndQuit(acts: MenuActs): Item[] {
  return [commandItems(acts)('Preferences', 'preferences', 'CmdOrCtrl+,'), SEPARATOR, { role: 'quit' }];
}

function editMenu(acts: MenuActs, { platform }: MenuState): Item {
  const command = commandItems(acts);
  return {
    label: '&Edit',
    submenu: [
      command('Undo', 'undo', 'CmdOrCtrl+Z'),
      command('Redo', 'redo', platform === 'win32' ? 'Ctrl+Y' : 'CmdOrCtrl+Shift+Z'),
      SEPARATOR,
      { role: 'cut' },
      { role: 'copy' },
      { role: 'paste' },
      { role: 'selectAll' },
      SEPARATOR,
      command('Find a command…', 'findCommand', 'CmdOrCtrl+K'),
      command('Find in the archive…', 'findInArchive', 'CmdOrCtrl+F'),
    ],
  };
}

function viewMenu(acts: MenuActs): Item {
  const command = commandItems(acts);
  return {
    label: '&View',
    submenu: [
      command('Bench', 'goBench', 'CmdOrCtrl+Shift+B'),
      command('Shelf', 'goShelf', 'CmdOrCtrl+Shift+S'),
      command('Archive', 'goArchive', 'CmdOrCtrl+Shift+A'),
      SEPARATOR,
      command('Display unit…', 'displayUnit'),
      command('Light or dark', 'switchTheme'),
      command('Bench or desk size', 'switchDensity'),
      SEPARATOR,
      { role: 'resetZoom' },
      { role: 'zoomIn' },
      { role: 'zoomOut' },
      SEPARATOR,
      { role: 'togglefullscreen' },
    ],
  };
}

function headerMenu(acts: MenuActs): Item {
  const command = commandItems(acts);
  return {
    label: '&Header',
    submenu: [
      command('Rename…', 'renameHeader'),
      command('Duplicate', 'duplicateHeader'),
      command('Finish…', 'finishHeader'),
      command('Move to the bin', 'binHeader'),
      SEPARATOR,
      ...pieceItems(acts),
      SEPARATOR,
      ...primaryItems(acts),
      SEPARATOR,
      ...drawerItems(acts),
    ],
  };
}

/** Keys that mean something else while typing on macOS (Option types signs) are not shown: there the menu would take them. */
function pieceItems(acts: MenuActs): Item[] {
  const command = commandItems(acts);
  return [
    command('Go to the entry line', 'entryLine', 'CmdOrCtrl+E'),
    command('Insert a piece', 'insertPiece', 'CmdOrCtrl+I'),
    command('Duplicate piece', 'duplicatePiece', 'CmdOrCtrl+D'),
    command('Change state of piece', 'changeState'),
    command('Lock or unlock piece', 'lockPiece'),
    command('Move piece up', 'movePieceUp'),
    command('Move piece down', 'movePieceDown'),
    command('Angle of bend by tape', 'angleByTape'),
    command('Delete piece', 'deletePiece'),
  ];
}

function primaryItems(acts: MenuActs): Item[] {
  const command = commandItems(acts);
  return [
    command('Next primary', 'nextPrimary', 'CmdOrCtrl+Down'),
    command('Previous primary', 'previousPrimary', 'CmdOrCtrl+Up'),
    command('Add primary', 'addPrimary'),
    command('Duplicate primary', 'duplicatePrimary'),
    command('Delete primary', 'deletePrimary'),
  ];
}

function drawerItems(acts: MenuActs): Item[] {
  const command = commandItems(acts);
  return [
    command('Settings', 'settingsDrawer'),
    command('Primaries', 'primariesDrawer'),
    command('Figures', 'figuresDrawer'),
    command('View', 'viewDrawer'),
    command('Shape', 'shapeDrawer'),
    command('Moves', 'movesDrawer'),
    command('Keypad on screen', 'keypad'),
  ];
}

function helpMenu(acts: MenuActs): Item {
  const command = commandItems(acts);
  return {
    role: 'help',
    submenu: [
      command('Help', 'showHelp', 'F1'),
      command('Keys', 'showKeys'),
      SEPARATOR,
      command('About Evenrun', 'showAbout'),
    ],
  };
}

function macAppMenu(acts: MenuActs): Item {
  const command = commandItems(acts);
  return {
    role: 'appMenu',
    submenu: [
      command('About Evenrun', 'showAbout'),
      SEPARATOR,
      command('Preferences…', 'preferences', 'Cmd+,'),
      SEPARATOR,
      { role: 'services' },
      SEPARATOR,
      { role: 'hide' },
      { role: 'hideOthers' },
      { role: 'unhide' },
      SEPARATOR,
      { role: 'quit' },
    ],
  };
}

/** The whole menu bar, in the order in which people look for things. */
export function menuTemplate(acts: MenuActs, state: MenuState): Item[] {
  return [
    ...(state.platform === 'darwin' ? [macAppMenu(acts)] : []),
    fileMenu(acts, state),
    editMenu(acts, state),
    viewMenu(acts),
    headerMenu(acts),
    { role: 'windowMenu' },
    helpMenu(acts),
  ];
}
