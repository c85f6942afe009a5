/**
 * The grid's commands as buttons, for hands that are not at a keyboard; one stop of the Tab key, worked by arrow keys. Each
 * group is drawn again only when what it says changes: going from piece to piece is part of typing.
 */

import { memo } from 'react';
import { Toolbar } from 'react-aria-components';
import type { Piece, PieceState } from '../../../core/index.ts';
import { Button } from '../../ui/button.tsx';
import { ActionMenu } from '../../ui/fields/choice-menu.tsx';
import { countOf } from '../../ui/words/spoken.ts';
import { onePieceActs, type PieceDoings, stateActs, whenMenuIsGone } from './piece-acts.ts';

interface Props {
  /** Kind of the piece in hand; null when there is none. */
  readonly kind: Piece['kind'] | null;
  readonly isLocked: boolean;
  readonly hasNote: boolean;
  /** How many pieces are selected, and the state that all of them are in; null where they differ. */
  readonly count: number;
  readonly state: PieceState | null;
  /** Whether the selection begins with the first piece of the primary, and ends with its last. */
  readonly isFirst: boolean;
  readonly isLast: boolean;
  readonly doings: PieceDoings;
}

export const PieceButtons = memo(function PieceButtons(props: Props) {
  const { kind, isLocked, hasNote, count, state, isFirst, isLast, doings } = props;
  const { onAct } = doings;
  return (
    <Toolbar className="piece-buttons" aria-label={count > 1 ? `${countOf(count, 'piece')} selected` : 'Piece in hand'}>
      <UsualActs isOff={kind === null} isFirst={isFirst} isLast={isLast} onAct={onAct} />
      {kind === null ? null : (
        <>
          <StateMenu state={state} onAct={onAct} />
          <MoreMenu kind={kind} isLocked={isLocked} hasNote={hasNote} isOne={count === 1} doings={doings} />
        </>
      )}
      {count > 1 ? <span className="selected-count">{countOf(count, 'piece')}</span> : null}
    </Toolbar>
  );
});

type UsualProps = Pick<Props, 'isFirst' | 'isLast'> & Pick<PieceDoings, 'onAct'> & { readonly isOff: boolean };

const UsualActs = memo(function UsualActs({ isOff, isFirst, isLast, onAct }: UsualProps) {
  return (
    <>
      <Button look="quiet" isDisabled={isOff} onPress={() => onAct({ kind: 'insert' })}>
        Insert
      </Button>
      <Button look="quiet" isDisabled={isOff || isFirst} onPress={() => onAct({ kind: 'shift', by: -1 })}>
        Up
      </Button>
      <Button look="quiet" isDisabled={isOff || isLast} onPress={() => onAct({ kind: 'shift', by: 1 })}>
        Down
      </Button>
      <Button look="quiet" isDisabled={isOff} onPress={() => onAct({ kind: 'remove' })}>
        Delete
      </Button>
    </>
  );
});

const StateMenu = memo(function StateMenu({ state, onAct }: Pick<Props, 'state'> & Pick<PieceDoings, 'onAct'>) {
  return (
    <ActionMenu label="State of the pieces selected" acts={stateActs(state, onAct)}>
      State
    </ActionMenu>
  );
});

interface MoreProps extends Pick<Props, 'isLocked' | 'hasNote' | 'doings'> {
  readonly kind: Piece['kind'];
  readonly isOne: boolean;
}

/** What has no button of its own: all of them at once would take two lines. */
const MoreMenu = memo(function MoreMenu({ kind, isLocked, hasNote, isOne, doings }: MoreProps) {
  const { onAct } = doings;
  const acts = [
    { id: 'duplicate', name: 'Duplicate', run: () => onAct({ kind: 'duplicate' }) },
    { id: 'lock', name: isLocked ? 'Unlock' : 'Lock', run: () => onAct({ kind: 'toggleLock' }) },
    ...(isOne ? onePieceActs({ kind, hasNote }, doings) : []).map((act) => ({
      ...act,
      run: () => whenMenuIsGone(act.run),
    })),
  ];
  return (
    <ActionMenu label="More for this piece" acts={acts}>
      More
    </ActionMenu>
  );
});
