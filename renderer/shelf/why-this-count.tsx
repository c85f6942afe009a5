/** Why a count is what it is: every movement of a row, the latest first. */

import { useEffect, useState } from 'react';
import { type MovementReason, stockItemWords } from '../../core/index.ts';
import type { ResponseOf } from '../../electron/bridge/contract.ts';
import { useAsk } from '../host/host-bridge.ts';
import { Button } from '../ui/button.tsx';
import { FigureText } from '../ui/figure-text.tsx';
import { ModalDialog } from '../ui/modal-dialog.tsx';
import { showTime } from '../ui/words/spoken.ts';
import type { Stored } from './shelf-keeper.ts';

interface Props {
  readonly stored: Stored;
  readonly onClose: () => void;
}

type Movements = ResponseOf<'readMovements'>['movements'];

const REASONS: Readonly<Record<MovementReason, string>> = {
  received: 'received',
  cut: 'cut',
  scrapped: 'scrapped',
  counted: 'counted',
  takenBack: 'taken back',
};

export function WhyThisCount({ stored, onClose }: Props) {
  const ask = useAsk();
  const { item } = stored;
  const [movements, setMovements] = useState<Movements | null>(null);
  const [words, setWords] = useState<string | null>(null);
  useEffect(() => {
    void ask('readMovements', { itemId: item.id }).then((answer) => {
      if (answer.ok) setMovements(answer.value.movements);
      else setWords(answer.words);
    });
  }, [ask, item.id]);
  return (
    <ModalDialog
      title="Why this count"
      isOpen
      size="large"
      onClose={onClose}
      actions={<Button onPress={onClose}>Close</Button>}
    >
      <p>
        <FigureText text={`${item.count} of ${stockItemWords(item)}`} />
        {stored.isDoubtful
          ? ', as far as it can be told: part of the book is damaged. Count the row to put it right.'
          : ''}
      </p>
      {words === null ? null : <p role="alert">{words}</p>}
      {movements === null ? null : <MovementTable movements={movements} />}
    </ModalDialog>
  );
}

function MovementTable({ movements }: { readonly movements: Movements }) {
  if (movements.length === 0) return <p className="muted">Nothing has come or gone yet.</p>;
  return (
    <table className="table">
      <thead>
        <tr>
          <th scope="col">When</th>
          <th scope="col" className="number">
            Pieces
          </th>
          <th scope="col">Why</th>
          <th scope="col" className="number">
            Left
          </th>
          <th scope="col">Step</th>
        </tr>
      </thead>
      <tbody>
        {movements.map(({ movedAt, pieces, reason, left, label }, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: the list is read once and never changes
          <tr key={at}>
            <td>{showTime(movedAt)}</td>
            <td className="number">{pieces > 0 ? `+${pieces}` : `−${-pieces}`}</td>
            <td>{REASONS[reason]}</td>
            <td className="number">{left}</td>
            <td>
              <FigureText text={label ?? 'can no longer be told'} />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
