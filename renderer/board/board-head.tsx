/** Over the rows: how they are ordered, and the scale. */

import { ArrowDownUp } from 'lucide-react';
import { memo } from 'react';
import type { LengthStyle } from '../../core/index.ts';
import { ChoiceMenu } from '../ui/fields/choice-menu.tsx';
import type { BoardOrder } from './board-order.ts';
import { BoardAxis } from './scale/board-axis.tsx';
import type { BoardScales } from './scale/use-board-scales.ts';

const ORDERS: readonly { readonly id: BoardOrder; readonly name: string; readonly shown: string }[] = [
  { id: 'port', name: 'As listed in the header', shown: 'As listed' },
  { id: 'miss', name: 'By miss, the farthest off first', shown: 'By miss' },
];

interface Props {
  readonly deviation: BoardScales['deviation'];
  readonly trackRef: BoardScales['trackRef'];
  readonly style: LengthStyle;
  readonly order: BoardOrder;
  readonly onOrder: (order: BoardOrder) => void;
}

/** Drawn again only for another scale, and not for every piece that is typed. */
export const BoardHead = memo(function BoardHead({ deviation, trackRef, style, order, onOrder }: Props) {
  return (
    <div className="board-head">
      <div className="board-order">
        <ChoiceMenu label="Order of the rows" choices={ORDERS} chosen={order} onChoose={onOrder}>
          <ArrowDownUp className="icon" aria-hidden="true" size="1em" />{' '}
          <span className="board-order-word">{ORDERS.find(({ id }) => id === order)?.shown}</span>
        </ChoiceMenu>
      </div>
      <div className="board-track" ref={trackRef}>
        <BoardAxis scale={deviation} style={style} />
      </div>
    </div>
  );
});
