/** Every command of the program, written once: what it is called, its keys, and the menu that it stands in. */

/** Headings of the command search and the list of keys, in the order they are shown. */
export const COMMAND_GROUPS = ['Header', 'Edit', 'View', 'Go to', 'Shelf', 'Archive', 'Program'] as const;
export type CommandGroup = (typeof COMMAND_GROUPS)[number];

/** Menus of the menu bar. `program` is the menu named after the program on macOS; elsewhere its commands stand under File and Help. */
export type CommandMenu = 'file' | 'edit' | 'view' | 'header' | 'help' | 'program';

export interface CommandEntry {
  /** As shown in menu, search and key list: a verb and its object, or the place to go to. */
  readonly name: string;
  readonly group: CommandGroup;
  /** Null: in no menu. */
  readonly menu: CommandMenu | null;
  /** Key chords such as `Mod+K` or `F1`; `Mod` is Ctrl, or Command on a Mac. The first is the one shown. */
  readonly keys?: readonly string[];
  /** The one of `keys` that Windows menus show, where it is not the first. */
  readonly windowsKey?: string;
  /** Other words that a person may type to find it. */
  readonly words?: string;
  /** Asks for something before it does anything: menus put dots after its name. */
  readonly asks?: true;
}

const TABLE = {
  newHeader: { name: 'New header', group: 'Header', menu: 'file', keys: ['Mod+N'], words: 'create start' },
  listHeaders: {
    name: 'All headers',
    group: 'Header',
    menu: 'file',
    keys: ['Mod+Shift+O'],
    words: 'open recent bin',
  },
  importFile: {
    name: 'Import a file',
    group: 'Header',
    menu: 'file',
    keys: ['Mod+O'],
    words: 'open json csv parts',
    asks: true,
  },
  exportHeader: {
    name: 'Export this header',
    group: 'Header',
    menu: 'file',
    keys: ['Mod+Shift+E'],
    words: 'save as file json',
    asks: true,
  },
  printBench: { name: 'Print the bench', group: 'Header', menu: 'file', keys: ['Mod+P'], words: 'paper', asks: true },
  renameHeader: { name: 'Rename this header', group: 'Header', menu: 'header', asks: true },
  duplicateHeader: { name: 'Duplicate this header', group: 'Header', menu: 'header', words: 'copy' },
  finishHeader: {
    name: 'Finish this header',
    group: 'Header',
    menu: 'header',
    words: 'archive freeze done',
    asks: true,
  },
  binHeader: { name: 'Bin this header', group: 'Header', menu: 'header', words: 'delete remove away' },
  addPrimary: { name: 'Add primary', group: 'Header', menu: 'header', keys: ['Alt+A'], words: 'runner new' },
  duplicatePrimary: { name: 'Duplicate primary', group: 'Header', menu: 'header' },
  deletePrimary: { name: 'Delete primary', group: 'Header', menu: 'header' },

  undo: { name: 'Undo', group: 'Edit', menu: 'edit', keys: ['Mod+Z'] },
  redo: { name: 'Redo', group: 'Edit', menu: 'edit', keys: ['Mod+Shift+Z', 'Mod+Y'], windowsKey: 'Mod+Y' },
  insertPiece: { name: 'Insert a piece here', group: 'Edit', menu: 'header', keys: ['Mod+I', 'Insert'] },
  deletePiece: { name: 'Delete piece', group: 'Edit', menu: 'header', keys: ['Mod+Delete'] },
  duplicatePiece: { name: 'Duplicate piece', group: 'Edit', menu: 'header', keys: ['Mod+D'] },
  movePieceUp: { name: 'Move piece up', group: 'Edit', menu: 'header', keys: ['Alt+ArrowUp'] },
  movePieceDown: { name: 'Move piece down', group: 'Edit', menu: 'header', keys: ['Alt+ArrowDown'] },
  lockPiece: { name: 'Lock or unlock piece', group: 'Edit', menu: 'header' },
  markPlanned: { name: 'Mark planned', group: 'Edit', menu: 'header', words: 'state piece' },
  markCut: { name: 'Mark cut', group: 'Edit', menu: 'header', words: 'state piece' },
  markTacked: { name: 'Mark tacked', group: 'Edit', menu: 'header', words: 'state piece' },
  markWelded: { name: 'Mark welded', group: 'Edit', menu: 'header', words: 'state piece' },
  finishPrimary: {
    name: 'Finish primary with a piece or two',
    group: 'Edit',
    menu: 'header',
    keys: ['Alt+I'],
    words: 'inlet to go last close end',
  },
  angleByTape: {
    name: 'Angle of bend by tape',
    group: 'Edit',
    menu: 'header',
    keys: ['Alt+T'],
    words: 'odd piece measure arc chord',
  },

  displayUnit: {
    name: 'Switch between inches and millimetres',
    group: 'View',
    menu: 'view',
    words: 'unit mm fraction',
  },
  switchTheme: { name: 'Light or dark', group: 'View', menu: 'view', words: 'colours night' },
  switchDensity: { name: 'Bench or desk size', group: 'View', menu: 'view', words: 'density large gloves dense' },
  movesPanel: {
    name: 'Moves',
    group: 'View',
    menu: 'header',
    keys: ['Alt+M'],
    words: 'suggest fix cut trim add length runner bring into band',
  },
  portsPanel: { name: 'Ports and inlets', group: 'View', menu: 'header', words: 'pose collector shape row pattern' },
  clockingPanel: { name: 'Clocking', group: 'View', menu: 'header', words: 'dial gauge mark turn bend' },
  fitPanel: {
    name: 'Fit: clearance and closure',
    group: 'View',
    menu: 'header',
    words: 'gap clash tilt inlet minimum shape',
  },
  obstaclesPanel: { name: 'Obstacles', group: 'View', menu: 'header', words: 'box cylinder plane rail shaft' },
  asBuiltPanel: {
    name: 'As-built check',
    group: 'View',
    menu: 'header',
    words: 'measured tape string fill wrong entry scatter joint watch',
  },
  pulsesPanel: {
    name: 'Pulses at the collectors',
    group: 'View',
    menu: 'header',
    words: 'firing order rpm gas temperature sound crank degrees engine',
  },
  picturesPanel: { name: 'Pictures', group: 'View', menu: 'header', words: 'photo image caption camera' },
  tablesPanel: {
    name: 'Tables and other bank',
    group: 'View',
    menu: 'header',
    words: 'figures LRA XYZ mirror compare numbers',
  },
  settingsPanel: {
    name: 'Header settings',
    group: 'View',
    menu: 'header',
    words: 'target tolerance unit tube CLR shrinkage note',
  },
  keypad: { name: 'Keypad on screen', group: 'View', menu: 'header', words: 'gloves' },

  goBench: { name: 'Bench', group: 'Go to', menu: 'view', keys: ['Mod+Shift+B'] },
  goCutPlan: { name: 'Cut plan', group: 'Go to', menu: 'header', words: 'saw stock remnant shortage order' },
  goSheets: {
    name: 'Sheets',
    group: 'Go to',
    menu: 'header',
    words: 'print PDF build sheet strips template cope fixture paper',
  },
  goShelf: { name: 'Shelf', group: 'Go to', menu: 'view', keys: ['Mod+Shift+S'], words: 'stock bends straights' },
  goArchive: { name: 'Archive', group: 'Go to', menu: 'view', keys: ['Mod+Shift+A'], words: 'finished' },
  goShopFigures: {
    name: 'Shop figures',
    group: 'Go to',
    menu: 'view',
    words: 'chart spread joints tube left over time archive',
  },
  primary1: { name: 'Go to the 1st primary', group: 'Go to', menu: null, keys: ['Alt+1'] },
  primary2: { name: 'Go to the 2nd primary', group: 'Go to', menu: null, keys: ['Alt+2'] },
  primary3: { name: 'Go to the 3rd primary', group: 'Go to', menu: null, keys: ['Alt+3'] },
  primary4: { name: 'Go to the 4th primary', group: 'Go to', menu: null, keys: ['Alt+4'] },
  primary5: { name: 'Go to the 5th primary', group: 'Go to', menu: null, keys: ['Alt+5'] },
  primary6: { name: 'Go to the 6th primary', group: 'Go to', menu: null, keys: ['Alt+6'] },
  primary7: { name: 'Go to the 7th primary', group: 'Go to', menu: null, keys: ['Alt+7'] },
  primary8: { name: 'Go to the 8th primary', group: 'Go to', menu: null, keys: ['Alt+8'] },
  nextPrimary: { name: 'Next primary', group: 'Go to', menu: 'header', keys: ['Mod+ArrowDown'] },
  previousPrimary: { name: 'Previous primary', group: 'Go to', menu: 'header', keys: ['Mod+ArrowUp'] },
  entryLine: { name: 'Go to the entry line', group: 'Go to', menu: 'header', keys: ['Mod+E'] },

  importStock: { name: 'Import shelf stock', group: 'Shelf', menu: 'file', words: 'csv', asks: true },
  exportStock: { name: 'Export shelf stock', group: 'Shelf', menu: 'file', words: 'csv file', asks: true },
  similarHeaders: {
    name: 'Similar finished headers',
    group: 'Archive',
    menu: 'header',
    words: 'like alike compare archive find',
  },
  exportFinished: {
    name: 'Export finished headers',
    group: 'Archive',
    menu: 'file',
    words: 'archive save all json lines',
    asks: true,
  },
  bringBackFinished: {
    name: 'Bring finished headers back',
    group: 'Archive',
    menu: 'file',
    words: 'archive import open file',
    asks: true,
  },
  findInArchive: { name: 'Find in the archive', group: 'Archive', menu: 'edit', keys: ['Mod+F'], asks: true },

  saveNow: { name: 'Make a backup now', group: 'Program', menu: 'file', keys: ['Mod+S'], words: 'save' },
  findCommand: { name: 'Find a command', group: 'Program', menu: 'edit', keys: ['Mod+K'], asks: true },
  preferences: {
    name: 'Preferences',
    group: 'Program',
    menu: 'program',
    keys: ['Mod+,'],
    words: 'settings theme size',
    asks: true,
  },
  showBackups: { name: 'Backups', group: 'Program', menu: 'file', words: 'restore', asks: true },
  backUpEverything: {
    name: 'Back up everything to a file',
    group: 'Program',
    menu: 'file',
    words: 'save copy stick all',
    asks: true,
  },
  restoreEverything: {
    name: 'Restore everything from a file',
    group: 'Program',
    menu: 'file',
    words: 'backup other computer move',
    asks: true,
  },
  showHelp: { name: 'Help', group: 'Program', menu: 'help', keys: ['F1'] },
  showKeys: { name: 'Keys', group: 'Program', menu: 'help', keys: ['Mod+/'], words: 'shortcuts keyboard' },
  showAbout: { name: 'About Evenrun', group: 'Program', menu: 'program', words: 'version' },
} as const satisfies Readonly<Record<string, CommandEntry>>;

/** What a command is known by, on the page, in the menu bar and in the message between them. */
export type CommandId = keyof typeof TABLE;

/** Commands that stand in the menu. */
export type CommandIn<Menu extends CommandMenu> = {
  [Id in CommandId]: (typeof TABLE)[Id]['menu'] extends Menu ? Id : never;
}[CommandId];

export const COMMANDS: Readonly<Record<CommandId, CommandEntry>> = TABLE;
