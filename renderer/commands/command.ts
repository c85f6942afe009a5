/** What a command is: something a person can do, found by its name, its key or the menu bar. */

/** Headings of the commands list, in the order they are shown. */
export const COMMAND_GROUPS = ['Header', 'Edit', 'View', 'Go to', 'Shelf', 'Archive', 'Program'] as const;
export type CommandGroup = (typeof COMMAND_GROUPS)[number];

/**
 * Ids that the menu bar of the shell sends, and the search lists. A screen may add commands with ids of its own;
 * an id that nobody has registered is reported to the user in words, never ignored.
 */
export const COMMAND_IDS = [
  'newHeader',
  'listHeaders',
  'importFile',
  'exportHeader',
  'saveNow',
  'renameHeader',
  'duplicateHeader',
  'finishHeader',
  'binHeader',
  'undo',
  'redo',
  'goBench',
  'goShelf',
  'goArchive',
  'importStock',
  'exportStock',
  'findInArchive',
  'findCommand',
  'showKeys',
  'showHelp',
  'showBackups',
  'showAbout',
  'preferences',
  'switchTheme',
  'switchDensity',
  'displayUnit',
] as const;
export type CommandId = (typeof COMMAND_IDS)[number];

export interface Command {
  /** One of `COMMAND_IDS`, or an id of the screen's own. */
  readonly id: string;
  /** As shown: a verb and its object, "Duplicate header". */
  readonly name: string;
  readonly group: CommandGroup;
  /** Key chords such as `Mod+K` or `F1`; `Mod` is Ctrl, or Command on a Mac. The first is the one shown. */
  readonly keys?: readonly string[];
  /** Other words that a person may type to find it. */
  readonly words?: string;
  /** Why it cannot be done now, in words; absent or null when it can. */
  readonly unavailable?: string | null;
  readonly run: () => void;
}
