/** What stands in the menu bar, as Electron's template; who acts on it is handed in. */

import type { MenuItemConstructorOptions } from 'electron';
import { shortened } from '../../core/index.ts';
import { COMMANDS, type CommandEntry, type CommandId, type CommandIn, type CommandMenu } from '../bridge/commands.ts';

type Item = MenuItemConstructorOptions;

/** A header that was worked on lately. */
export interface RecentHeader {
  readonly headerId: string;
  readonly name: string;
}

export interface MenuActs {
  /** Tells the page that a command was chosen. */
  command(id: CommandId): void;
  /** Tells the page that a recent header was chosen. */
  openHeader(headerId: string): void;
  /** Lets the user choose a file to open. */
  openFile(): void;
  showDataFolder(): void;
}

export interface MenuState {
  readonly platform: NodeJS.Platform;
  readonly recent: readonly RecentHeader[];
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
    click: () => acts.openHeader(headerId),
  }));
}

/** On macOS the menu takes its keys from the page, so it has none that mean something else in a text field there: Option types signs, Command and Delete clear the line. */
function isForMenus(chord: string): boolean {
  return (chord.startsWith('Mod+') && chord !== 'Mod+Delete') || /^F\d+$/.test(chord);
}

/** The command's key as Electron writes it; null: the menu shows none. */
function acceleratorOf({ keys, windowsKey }: CommandEntry, platform: NodeJS.Platform): string | null {
  const chord = platform === 'win32' ? (windowsKey ?? keys?.[0]) : keys?.[0];
  if (chord === undefined || !isForMenus(chord)) return null;
  return chord.replace('Mod+', 'CmdOrCtrl+').replace('Arrow', '');
}

/** Makes items of the commands of one menu. The page hears their keys itself; the menu shows them, and acts on them on macOS only. */
function commandItems<Menu extends CommandMenu>(acts: MenuActs, { platform }: MenuState) {
  return (id: CommandIn<Menu>): Item => {
    const entry = COMMANDS[id];
    const accelerator = acceleratorOf(entry, platform);
    return {
      label: `${entry.name}${entry.asks === true ? '…' : ''}`,
      click: () => acts.command(id),
      ...(accelerator === null ? {} : { accelerator, registerAccelerator: false }),
    };
  };
}

function fileMenu(acts: MenuActs, state: MenuState): Item {
  const command = commandItems<'file'>(acts, state);
  return {
    label: '&File',
    submenu: [
      command('newHeader'),
      { label: 'Open a header file…', click: () => acts.openFile() },
      { label: 'Recent headers', submenu: recentItems(state.recent, acts) },
      command('listHeaders'),
      SEPARATOR,
      command('importFile'),
      command('importStock'),
      command('exportHeader'),
      command('printBench'),
      command('exportStock'),
      command('exportFinished'),
      command('bringBackFinished'),
      SEPARATOR,
      command('saveNow'),
      command('showBackups'),
      command('backUpEverything'),
      command('restoreEverything'),
      { label: 'Show the data folder', click: () => acts.showDataFolder() },
      SEPARATOR,
      ...(state.platform === 'darwin' ? [{ role: 'close' } as const] : preferencesAndQuit(acts, state)),
    ],
  };
}

function preferencesAndQuit(acts: MenuActs, state: MenuState): Item[] {
  return [commandItems<'program'>(acts, state)('preferences'), SEPARATOR, { role: 'quit' }];
}

function editMenu(acts: MenuActs, state: MenuState): Item {
  const command = commandItems<'edit'>(acts, state);
  return {
    label: '&Edit',
    submenu: [
      command('undo'),
      command('redo'),
      SEPARATOR,
      { role: 'cut' },
      { role: 'copy' },
      { role: 'paste' },
      { role: 'selectAll' },
      SEPARATOR,
      command('findCommand'),
      command('findInArchive'),
    ],
  };
}

function viewMenu(acts: MenuActs, state: MenuState): Item {
  const command = commandItems<'view'>(acts, state);
  return {
    label: '&View',
    submenu: [
      command('goBench'),
      command('goShelf'),
      command('goArchive'),
      command('goShopFigures'),
      SEPARATOR,
      command('displayUnit'),
      command('switchTheme'),
      command('switchDensity'),
      SEPARATOR,
      { role: 'resetZoom' },
      { role: 'zoomIn' },
      { role: 'zoomOut' },
      SEPARATOR,
      { role: 'togglefullscreen' },
    ],
  };
}

/** From the whole header to its parts, then the panels of the bench; null is a line between. */
const HEADER_COMMANDS: readonly (CommandIn<'header'> | null)[] = [
  'renameHeader',
  'duplicateHeader',
  'finishHeader',
  'binHeader',
  'goCutPlan',
  'goSheets',
  'similarHeaders',
  null,
  'entryLine',
  'insertPiece',
  'duplicatePiece',
  'markPlanned',
  'markCut',
  'markTacked',
  'markWelded',
  'lockPiece',
  'movePieceUp',
  'movePieceDown',
  'angleByTape',
  'finishPrimary',
  'deletePiece',
  null,
  'nextPrimary',
  'previousPrimary',
  'addPrimary',
  'duplicatePrimary',
  'deletePrimary',
  null,
  'movesPanel',
  'portsPanel',
  'clockingPanel',
  'fitPanel',
  'obstaclesPanel',
  'asBuiltPanel',
  'pulsesPanel',
  'picturesPanel',
  'tablesPanel',
  'settingsPanel',
  'keypad',
];

function headerMenu(acts: MenuActs, state: MenuState): Item {
  const command = commandItems<'header'>(acts, state);
  return { label: '&Header', submenu: HEADER_COMMANDS.map((id) => (id === null ? SEPARATOR : command(id))) };
}

function helpMenu(acts: MenuActs, state: MenuState): Item {
  const command = commandItems<'help'>(acts, state);
  return {
    role: 'help',
    submenu: [command('showHelp'), command('showKeys'), SEPARATOR, commandItems<'program'>(acts, state)('showAbout')],
  };
}

function macAppMenu(acts: MenuActs, state: MenuState): Item {
  const command = commandItems<'program'>(acts, state);
  return {
    role: 'appMenu',
    submenu: [
      command('showAbout'),
      SEPARATOR,
      command('preferences'),
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
    ...(state.platform === 'darwin' ? [macAppMenu(acts, state)] : []),
    fileMenu(acts, state),
    editMenu(acts, state),
    viewMenu(acts, state),
    headerMenu(acts, state),
    { role: 'windowMenu' },
    helpMenu(acts, state),
  ];
}
