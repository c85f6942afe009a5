/** What can be done with the pieces selected, as lines of a menu. */

import { PIECE_STATES, type Piece, type PieceState } from '../../../core/index.ts';
import { COMMANDS, type CommandId } from '../../../electron/bridge/commands.ts';
import { showChord } from '../../commands/key-chord.ts';
import type { PieceAct } from './grid-keys.ts';

export interface MenuAct {
  readonly id: string;
  readonly name: string;
  /** The key that does the same in the grid, as shown. */
  readonly key?: string;
  /** Ticked: how things are now. */
  readonly isNow?: boolean;
  readonly run: () => void;
}

/** What a menu of pieces does beyond what the bench is asked for. */
export interface PieceDoings {
  readonly onAct: (act: PieceAct) => void;
  readonly onNote: () => void;
  readonly onKind: (kind: Piece['kind']) => void;
  readonly onTape: () => void;
}

/** Signs that say the state without colour: an open ring fills up as the piece comes along. */
export const STATE_MARKS: Readonly<Record<PieceState, string>> = {
  planned: '○',
  cut: '◔',
  tacked: '◑',
  welded: '●',
};

/** A line for each state. `now`: the one that all the pieces are in; null where they differ. */
export function stateActs(now: PieceState | null, onAct: PieceDoings['onAct']): readonly MenuAct[] {
  return PIECE_STATES.map((state) => ({
    id: state,
    name: `${STATE_MARKS[state]} ${state}`,
    key: (state[0] ?? '').toUpperCase(),
    isNow: state === now,
    run: () => onAct({ kind: 'setState', state }),
  }));
}

/** The state that all of the pieces are in; null where they differ, or there are none. */
export function commonState(pieces: readonly Pick<Piece, 'state'>[]): PieceState | null {
  const [first, ...others] = pieces;
  return first !== undefined && others.every(({ state }) => state === first.state) ? first.state : null;
}

function keyOf(id: CommandId): { readonly key?: string } {
  const chord = COMMANDS[id].keys?.[0];
  return chord === undefined ? {} : { key: showChord(chord) };
}

/** Places in the list and copies. */
export function placeActs({ onAct }: PieceDoings): readonly MenuAct[] {
  return [
    { id: 'insert', name: 'Insert before', ...keyOf('insertPiece'), run: () => onAct({ kind: 'insert' }) },
    { id: 'duplicate', name: 'Duplicate', ...keyOf('duplicatePiece'), run: () => onAct({ kind: 'duplicate' }) },
    { id: 'up', name: 'Move up', ...keyOf('movePieceUp'), run: () => onAct({ kind: 'shift', by: -1 }) },
    { id: 'down', name: 'Move down', ...keyOf('movePieceDown'), run: () => onAct({ kind: 'shift', by: 1 }) },
  ];
}

const KIND_NAMES: Readonly<Record<Piece['kind'], string>> = {
  straight: 'Change to straight',
  bend: 'Change to bend',
  pieCut: 'Change to pie-cut',
};

/** What the lines for one piece depend on, and nothing else of it: they need not be drawn again for every piece. */
export interface MenuPiece {
  readonly kind: Piece['kind'];
  readonly hasNote: boolean;
}

/** What is done with one piece: its note, its kind, its angle. */
export function onePieceActs({ kind: kindNow, hasNote }: MenuPiece, doings: PieceDoings): readonly MenuAct[] {
  const kinds = (['straight', 'bend', 'pieCut'] as const).filter((kind) => kind !== kindNow);
  const tape = { id: 'tape', name: 'Angle by tape', ...keyOf('angleByTape'), run: doings.onTape };
  return [
    { id: 'note', name: hasNote ? 'Edit the note' : 'Add a note', key: 'N', run: doings.onNote },
    ...kinds.map((kind) => ({ id: kind, name: KIND_NAMES[kind], run: () => doings.onKind(kind) })),
    ...(kindNow === 'straight' ? [] : [tape]),
  ];
}

/** What takes pieces out of reach: the lock, and deleting. */
export function endActs(piece: Piece, { onAct }: PieceDoings): readonly MenuAct[] {
  return [
    { id: 'lock', name: piece.locked ? 'Unlock' : 'Lock', key: 'L', run: () => onAct({ kind: 'toggleLock' }) },
    { id: 'remove', name: 'Delete', ...keyOf('deletePiece'), run: () => onAct({ kind: 'remove' }) },
  ];
}

/**
 * Runs what was chosen once its menu is gone and has given the focus back, which it does a frame after it closes: an act may
 * give the focus to a field.
 */
export function whenMenuIsGone(run: () => void): void {
  requestAnimationFrame(() => requestAnimationFrame(run));
}
