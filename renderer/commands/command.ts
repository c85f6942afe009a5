/** What a command is on the page: its entry in the table of commands, and how to do it now. */

import { COMMANDS, type CommandEntry, type CommandId } from '../../electron/bridge/commands.ts';

/** What a screen says of a command that it can do. An id that nobody offers is reported to the user in words, never ignored. */
export interface OfferedCommand {
  readonly id: CommandId;
  /** In place of the table's, where what it will do can be said more exactly: "Undo: add a bend". */
  readonly name?: string;
  /** Why it cannot be done now, in words; absent or null when it can. */
  readonly unavailable?: string | null;
  readonly run: () => void;
}

export interface Command extends CommandEntry, OfferedCommand {
  readonly name: string;
}

export function commandOf(offered: OfferedCommand): Command {
  return { ...COMMANDS[offered.id], ...offered };
}
