/** Keys that belong to a part of a screen rather than to a command, for the list of keys. */

import { COMMANDS, type CommandId } from '../../electron/bridge/commands.ts';

/** The keys of commands that also stand among those of a screen. */
function keysOf(...ids: readonly CommandId[]): readonly string[] {
  return ids.flatMap((id) => COMMANDS[id].keys ?? []);
}

export const SCREEN_KEYS = [
  {
    title: 'Next piece line',
    lines: [
      { does: 'Accept what is typed', chords: ['Enter'] },
      { does: 'Clear the line', chords: ['Escape'] },
      { does: 'Up to the pieces, from an empty line', chords: ['ArrowUp'] },
      { does: 'Previous or next primary', chords: ['PageUp', 'PageDown'] },
      { does: 'Put in what finishes the primary, from the pieces too', chords: keysOf('finishPrimary') },
    ],
  },
  {
    title: 'Match board',
    lines: [
      { does: 'Primary above or below', chords: ['ArrowUp', 'ArrowDown'] },
      { does: 'Read out its pieces', chords: ['ArrowLeft', 'ArrowRight'] },
      { does: 'Go to the piece read out', chords: ['Enter'] },
      { does: 'Rename the primary', chords: ['F2'] },
      { does: 'Move the primary up or down', chords: ['Alt+ArrowUp', 'Alt+ArrowDown'] },
      { does: 'Menu of the primary', chords: ['Shift+F10'] },
    ],
  },
  {
    title: 'Pieces',
    lines: [
      { does: 'Move between cells', chords: ['ArrowUp', 'ArrowDown', 'ArrowLeft', 'ArrowRight'] },
      { does: 'First or last cell of the row', chords: ['Home', 'End'] },
      { does: 'First or last cell of all', chords: ['Mod+Home', 'Mod+End'] },
      { does: 'Edit what is there', chords: ['F2', 'Enter'] },
      { does: 'Accept and go down', chords: ['Enter'] },
      { does: 'Accept and go on', chords: ['Tab'] },
      { does: 'Leave as it was', chords: ['Escape'] },
      { does: 'Select more rows', chords: ['Shift+ArrowUp', 'Shift+ArrowDown'] },
      { does: 'Select all rows', chords: ['Mod+A'] },
      { does: 'Insert a piece here', chords: keysOf('insertPiece') },
      { does: 'Delete the pieces selected', chords: keysOf('deletePiece') },
      { does: 'Duplicate the pieces selected', chords: keysOf('duplicatePiece') },
      { does: 'Move the pieces selected up or down', chords: keysOf('movePieceUp', 'movePieceDown') },
      { does: 'Choose the state', chords: ['Space'] },
      { does: 'In the State column: planned, cut, tacked, welded', chords: ['P', 'C', 'T', 'W'] },
      { does: 'Type a note', chords: ['N'] },
      { does: 'Menu of the pieces', chords: ['Shift+F10'] },
      { does: 'Lock or unlock: moves leave a locked piece alone', chords: ['L'] },
      { does: 'Copy, cut, paste rows', chords: ['Mod+C', 'Mod+X', 'Mod+V'] },
    ],
  },
  {
    title: 'Moves',
    lines: [
      { does: 'Previous or next move, previewed', chords: ['ArrowUp', 'ArrowDown'] },
      { does: 'Apply the move shown', chords: ['Enter'] },
      { does: 'Show the header as it is', chords: ['Escape'] },
      { does: 'Along the possible lengths', chords: ['ArrowLeft', 'ArrowRight', 'PageUp', 'PageDown'] },
      { does: 'Make the length the target', chords: ['Enter'] },
    ],
  },
  {
    title: 'Shelf table',
    lines: [
      { does: 'Accept and go down', chords: ['Enter'] },
      { does: 'Row above or below', chords: ['ArrowUp', 'ArrowDown'] },
      { does: 'Leave as it was', chords: ['Escape'] },
      { does: 'Remove the item', chords: ['Mod+Delete'] },
      { does: 'Why this count', chords: ['Alt+Enter'] },
      { does: 'To the new row', chords: keysOf('entryLine') },
      { does: 'Take back or do again', chords: keysOf('undo', 'redo') },
      { does: 'Paste cells of a spreadsheet', chords: ['Mod+V'] },
    ],
  },
] as const;
