/** Everything that can be done on the bench, by name: for the command search, the menu bar and the keys. Undo and redo are commands of the whole program. */

import type { Header } from '../../core/index.ts';
import type { CommandId } from '../../electron/bridge/commands.ts';
import type { OfferedCommand } from '../commands/command.ts';
import { primaryTitle } from '../ui/words/verdict-words.ts';
import type { BenchView } from './bench-view.ts';
import type { PieceAct } from './grid/grid-keys.ts';
import { PANELS, panelsFor } from './panels/panel-list.ts';
import type { BenchActs } from './use-bench-acts.ts';

export interface CommandReach {
  readonly header: Header;
  readonly view: BenchView;
  readonly acts: BenchActs;
  /** Finished or damaged: nothing of it changes. */
  readonly isFrozen: boolean;
  readonly focusEntry: () => void;
  /** Puts the pieces that would finish the primary in hand at its end. */
  readonly onFinish: () => void;
}

/** The first primaries have a command each, to jump to them. */
const JUMPS = [
  'primary1',
  'primary2',
  'primary3',
  'primary4',
  'primary5',
  'primary6',
  'primary7',
  'primary8',
] as const satisfies readonly CommandId[];

export function benchCommands(reach: CommandReach): readonly OfferedCommand[] {
  return [...pieceCommands(reach), ...primaryCommands(reach), ...viewCommands(reach)];
}

function pieceCommands({ view, acts }: CommandReach): readonly OfferedCommand[] {
  const unavailable = view.piece === null ? 'Choose a piece in the grid first.' : null;
  const command = (id: CommandId, act: PieceAct): OfferedCommand => ({ id, unavailable, run: () => acts.onPiece(act) });
  return [
    command('insertPiece', { kind: 'insert' }),
    command('deletePiece', { kind: 'remove' }),
    command('duplicatePiece', { kind: 'duplicate' }),
    command('movePieceUp', { kind: 'shift', by: -1 }),
    command('movePieceDown', { kind: 'shift', by: 1 }),
    command('lockPiece', { kind: 'toggleLock' }),
    command('markPlanned', { kind: 'setState', state: 'planned' }),
    command('markCut', { kind: 'setState', state: 'cut' }),
    command('markTacked', { kind: 'setState', state: 'tacked' }),
    command('markWelded', { kind: 'setState', state: 'welded' }),
    {
      id: 'angleByTape',
      unavailable: view.piece === null || view.piece.kind === 'straight' ? 'Choose a bend in the grid first.' : null,
      run: () => view.change({ tapedPieceId: view.piece?.id ?? null }),
    },
  ];
}

function primaryCommands({ header, view, acts, isFrozen, onFinish }: CommandReach): readonly OfferedCommand[] {
  const { primary } = view;
  const unavailable = primary === null ? 'There is no primary yet.' : null;
  const jumps = JUMPS.flatMap((id, index): readonly OfferedCommand[] => {
    const candidate = header.primaries[index];
    if (candidate === undefined) return [];
    return [{ id, name: `Go to ${primaryTitle(candidate.name)}`, run: () => view.selectPrimary(candidate.id) }];
  });
  const onPrimary = (act: (primaryId: string) => void) => () => {
    if (primary !== null) act(primary.id);
  };
  return [
    ...jumps,
    { id: 'nextPrimary', unavailable, run: () => acts.goBy(1) },
    { id: 'previousPrimary', unavailable, run: () => acts.goBy(-1) },
    {
      id: 'finishPrimary',
      unavailable: isFrozen ? 'A finished header does not change.' : unavailable,
      run: onFinish,
    },
    { id: 'addPrimary', run: acts.addPrimary },
    { id: 'duplicatePrimary', unavailable, run: onPrimary(acts.duplicatePrimary) },
    { id: 'deletePrimary', unavailable, run: onPrimary(acts.removePrimary) },
  ];
}

function viewCommands({ view, isFrozen, focusEntry }: CommandReach): readonly OfferedCommand[] {
  const open = new Set(panelsFor(isFrozen));
  return [
    ...PANELS.map(
      (panel): OfferedCommand => ({
        id: `${panel.id}Panel`,
        unavailable: open.has(panel) ? null : 'A finished header does not change.',
        run: () => view.togglePanel(panel.id),
      }),
    ),
    { id: 'keypad', run: () => view.change({ hasKeypad: !view.hasKeypad }) },
    { id: 'entryLine', run: focusEntry },
  ];
}
