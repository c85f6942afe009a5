/** The grid's commands as buttons, for hands that are not at a keyboard; one stop of the Tab key, worked by arrow keys. */

import { memo } from 'react';
import { Toolbar } from 'react-aria-components';
import type { Piece, PieceState } from '../../../core/index.ts';
import { Button } from '../../ui/button.tsx';
import { ActionMenu } from '../../ui/fields/choice-menu.tsx';
import { countOf } from '../../ui/words/spoken.ts';
import { onePieceActs, type PieceDoings, stateActs, whenMenuIsGone } from './piece-acts.ts';

interface Props {
  /** The piece in hand; null when there is none. */
  readonly piece: Piece | null;
  /** How many pieces are selected, and the state that all of them are in; null where they differ. */
  readonly count: number;
  readonly state: PieceState | null;
  /** Whether the selection begins with the first piece of the primary, and ends with its last. */
  readonly isFirst: boolean;
  readonly isLast: boolean;
  readonly doings: PieceDoings;
}

export const PieceButtons = memo(function PieceButtons({ piece, count, state, isFirst, isLast, doings }: Props) {
  const none = piece === null;
  const { onAct } = doings;
  return (
    <Toolbar className="piece-buttons" aria-label={count > 1 ? `${countOf(count, 'piece')} selected` : 'Piece in hand'}>
      <Button look="quiet" isDisabled={none} onPress={() => onAct({ kind: 'insert' })}>
        Insert
      </Button>
      <Button look="quiet" isDisabled={none || isFirst} onPress={() => onAct({ kind: 'shift', by: -1 })}>
        Up
      </Button>
      <Button look="quiet" isDisabled={none || isLast} onPress={() => onAct({ kind: 'shift', by: 1 })}>
        Down
      </Button>
      <Button look="quiet" isDisabled={none} onPress={() => onAct({ kind: 'remove' })}>
        Delete
      </Button>
      {piece === null ? null : (
        <>
          <ActionMenu label="State of the pieces selected" acts={stateActs(state, onAct)}>
            State
          </ActionMenu>
          <ActionMenu label="More for this piece" acts={moreActs(piece, count, doings)}>
            More
          </ActionMenu>
        </>
      )}
      {count > 1 ? <span className="selected-count">{countOf(count, 'piece')}</span> : null}
    </Toolbar>
  );
});

/** What has no button of its own: all of them at once would take two lines. */
function moreActs(piece: Piece, count: number, doings: PieceDoings) {
  const { onAct } = doings;
  return [
    { id: 'duplicate', name: 'Duplicate', run: () => onAct({ kind: 'duplicate' }) },
    { id: 'lock', name: piece.locked ? 'Unlock' : 'Lock', run: () => onAct({ kind: 'toggleLock' }) },
    ...(count === 1 ? onePieceActs(piece, doings) : []).map((act) => ({ ...act, run: () => whenMenuIsGone(act.run) })),
  ];
}
