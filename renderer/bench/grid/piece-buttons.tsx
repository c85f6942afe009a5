/** The grid's commands as buttons, for hands that are not at a keyboard. */

import { memo } from 'react';
import { nextState, type PieceState } from '../../../core/index.ts';
import { Button } from '../../ui/button.tsx';
import { ActionMenu } from '../../ui/fields/choice-menu.tsx';
import type { PieceAct } from './grid-events.ts';

interface Props {
  /** Null when no piece is in hand. */
  readonly state: PieceState | null;
  readonly isBend: boolean;
  readonly isFirst: boolean;
  readonly isLast: boolean;
  readonly onAct: (act: PieceAct) => void;
  readonly onTape: () => void;
}

export const PieceButtons = memo(function PieceButtons({ isBend, onTape, ...rest }: Props) {
  return (
    <div className="piece-buttons" role="toolbar" aria-label="Piece in hand">
      <UsualActs {...rest} />
      {rest.state === null ? null : <MorePieceActs isBend={isBend} onAct={rest.onAct} onTape={onTape} />}
    </div>
  );
});

/** Drawn again only when one of them changes: going from a straight to a bend leaves them as they are. */
const UsualActs = memo(function UsualActs({ state, isFirst, isLast, onAct }: Omit<Props, 'isBend' | 'onTape'>) {
  const none = state === null;
  return (
    <>
      <Button look="quiet" isDisabled={none} onPress={() => onAct({ kind: 'insert' })}>
        Insert
      </Button>
      <Button look="quiet" isDisabled={none || isFirst} onPress={() => onAct({ kind: 'move', by: -1 })}>
        Up
      </Button>
      <Button look="quiet" isDisabled={none || isLast} onPress={() => onAct({ kind: 'move', by: 1 })}>
        Down
      </Button>
      <Button look="quiet" isDisabled={none} onPress={() => onAct({ kind: 'cycleState' })}>
        {none ? 'State' : `Make ${nextState(state)}`}
      </Button>
      <Button look="quiet" isDisabled={none} onPress={() => onAct({ kind: 'remove' })}>
        Delete
      </Button>
    </>
  );
});

/** What is done seldom: all of the buttons at once would take two lines beside the chart. */
function MorePieceActs({ isBend, onAct, onTape }: Pick<Props, 'isBend' | 'onAct' | 'onTape'>) {
  const tape = isBend ? [{ id: 'tape', name: 'Angle by tape', run: onTape }] : [];
  const duplicate = { id: 'duplicate', name: 'Duplicate', run: () => onAct({ kind: 'duplicate' }) };
  const lock = { id: 'lock', name: 'Lock or unlock', run: () => onAct({ kind: 'toggleLock' }) };
  return (
    <ActionMenu label="More for this piece" acts={[duplicate, lock, ...tape]}>
      More
    </ActionMenu>
  );
}
