/** Everything that can be done on the bench, by name: for the command search, the menu bar and the keys. Undo and redo are commands of the whole program. */

import type { Header } from '../../core/index.ts';
import type { Command } from '../commands/command.ts';
import { primaryTitle } from '../ui/words/verdict-words.ts';
import type { BenchView, Drawer } from './bench-view.ts';
import type { PieceAct } from './grid/grid-events.ts';
import type { BenchActs } from './use-bench-acts.ts';

export interface CommandReach {
  readonly header: Header;
  readonly view: BenchView;
  readonly acts: BenchActs;
  readonly focusEntry: () => void;
}

/** Alt and a digit jump to the first eight primaries. */
const JUMP_KEYS = 8;

export function benchCommands(reach: CommandReach): readonly Command[] {
  return [...pieceCommands(reach), ...primaryCommands(reach), ...viewCommands(reach)];
}

function pieceCommands({ view, acts }: CommandReach): readonly Command[] {
  const unavailable = view.piece === null ? 'Choose a piece in the grid first.' : null;
  const command = (id: string, name: string, more: { act: PieceAct; keys: readonly string[] }): Command => ({
    id,
    name,
    group: 'Edit',
    keys: more.keys,
    unavailable,
    run: () => acts.onPiece(more.act),
  });
  return [
    command('insertPiece', 'Insert a piece here', { act: { kind: 'insert' }, keys: ['Mod+I', 'Insert'] }),
    command('deletePiece', 'Delete piece', { act: { kind: 'remove' }, keys: ['Mod+Delete'] }),
    command('duplicatePiece', 'Duplicate piece', { act: { kind: 'duplicate' }, keys: ['Mod+D'] }),
    command('movePieceUp', 'Move piece up', { act: { kind: 'move', by: -1 }, keys: ['Alt+ArrowUp'] }),
    command('movePieceDown', 'Move piece down', { act: { kind: 'move', by: 1 }, keys: ['Alt+ArrowDown'] }),
    command('lockPiece', 'Lock or unlock piece', { act: { kind: 'toggleLock' }, keys: [] }),
    command('changeState', 'Change state of piece', { act: { kind: 'cycleState' }, keys: [] }),
    {
      id: 'angleByTape',
      name: 'Angle of bend by tape',
      group: 'Edit',
      keys: ['Alt+T'],
      words: 'odd piece measure arc chord',
      unavailable: view.piece === null || view.piece.kind === 'straight' ? 'Choose a bend in the grid first.' : null,
      run: () => view.change({ tapedPieceId: view.piece?.id ?? null }),
    },
  ];
}

function primaryCommands({ header, view, acts }: CommandReach): readonly Command[] {
  const { primary } = view;
  const unavailable = primary === null ? 'There is no primary yet.' : null;
  const jumps = header.primaries.slice(0, JUMP_KEYS).map(
    (candidate, index): Command => ({
      id: `primary${index + 1}`,
      name: `Go to ${primaryTitle(candidate.name)}`,
      group: 'Go to',
      keys: [`Alt+${index + 1}`],
      run: () => view.selectPrimary(candidate.id),
    }),
  );
  const onPrimary = (act: (primaryId: string) => void) => () => {
    if (primary !== null) act(primary.id);
  };
  return [
    ...jumps,
    {
      id: 'nextPrimary',
      name: 'Next primary',
      group: 'Go to',
      keys: ['Mod+ArrowDown'],
      unavailable,
      run: () => acts.goBy(1),
    },
    {
      id: 'previousPrimary',
      name: 'Previous primary',
      group: 'Go to',
      keys: ['Mod+ArrowUp'],
      unavailable,
      run: () => acts.goBy(-1),
    },
    {
      id: 'addPrimary',
      name: 'Add primary',
      group: 'Header',
      keys: ['Alt+A'],
      words: 'runner new',
      run: acts.addPrimary,
    },
    {
      id: 'duplicatePrimary',
      name: 'Duplicate primary',
      group: 'Header',
      unavailable,
      run: onPrimary(acts.duplicatePrimary),
    },
    { id: 'deletePrimary', name: 'Delete primary', group: 'Header', unavailable, run: onPrimary(acts.removePrimary) },
  ];
}

function viewCommands({ view, focusEntry }: CommandReach): readonly Command[] {
  const drawer = (id: Drawer, name: string, words: string): Command => ({
    id: `${id}Drawer`,
    name,
    group: 'View',
    words,
    run: () => view.change({ drawer: view.drawer === id ? null : id }),
  });
  return [
    drawer('settings', 'Header settings', 'target tolerance unit tube CLR shrinkage'),
    drawer('primaries', 'Primaries: rename, put in order', 'runner rename reorder'),
    drawer('figures', 'Figures as a table', 'chart numbers'),
    drawer('moves', 'Moves that bring a primary into the band', 'suggest fix cut trim add length runner'),
    drawer('view', 'Header in space', 'view 3D picture turn section flat'),
    drawer(
      'shape',
      'Shape of the header',
      'port inlet clearance table clocking closure obstacle mirror compare LRA XYZ pose',
    ),
    {
      id: 'keypad',
      name: 'Keypad on screen',
      group: 'View',
      words: 'gloves',
      run: () => view.change({ hasKeypad: !view.hasKeypad }),
    },
    { id: 'entryLine', name: 'Go to the entry line', group: 'Go to', keys: ['Mod+E'], run: focusEntry },
  ];
}
