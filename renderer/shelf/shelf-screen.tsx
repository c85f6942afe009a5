/** The shelf: the shop's bend stock and straights, entered by keyboard or from a CSV file. */

import { useState } from 'react';
import { compareStockItems, type LengthUnit, type StockItem, stockItemWords } from '../../core/index.ts';
import { useCommands } from '../commands/command-registry.ts';
import { finishExport } from '../host/files.ts';
import { useAsk } from '../host/host-bridge.ts';
import { Button } from '../ui/button.tsx';
import { ChoiceField } from '../ui/fields/choice-field.tsx';
import { TextField } from '../ui/fields/text-field.tsx';
import { useNotice } from '../ui/notices.tsx';
import type { ShelfKeeper } from './shelf-keeper.ts';
import { hasWords } from './shelf-search.ts';
import { ShelfTable } from './shelf-table.tsx';
import { useShelf } from './use-shelf.ts';
import './shelf.css';

const UNITS = [
  { id: 'in', name: 'inches' },
  { id: 'mm', name: 'millimetres' },
] as const;

interface Props {
  /** Unit of numbers typed without one, at first. */
  readonly unit: LengthUnit;
  readonly onImport: () => void;
}

function useExport(): () => void {
  const ask = useAsk();
  const say = useNotice();
  return () =>
    void ask('exportStock', {}).then((answer) => {
      const words = answer.ok ? finishExport(answer.value) : answer.words;
      if (words !== null) say({ text: words, tone: answer.ok ? 'news' : 'trouble' });
    });
}

/** Removes at once; what was removed can be put back as it was. */
function useRemoval(keeper: ShelfKeeper): (item: StockItem) => void {
  const say = useNotice();
  const trouble = (words: string | null) => {
    if (words !== null) say({ text: words, tone: 'trouble' });
  };
  return (item) =>
    void keeper.remove([item.id]).then((words) => {
      if (words !== null) return trouble(words);
      const takeBack = () => void keeper.add([item]).then(trouble);
      say({ text: `Removed: ${stockItemWords(item)}.`, act: { name: 'Put it back', run: takeBack } });
    });
}

export function ShelfScreen(props: Props) {
  const { keeper, state } = useShelf();
  const remove = useRemoval(keeper);
  const exportStock = useExport();
  const [unit, setUnit] = useState(props.unit);
  const [words, setWords] = useState('');
  useCommands([{ id: 'exportStock', run: exportStock }]);
  const shown = (kind: StockItem['kind']) =>
    (state.stock ?? [])
      .filter(({ item }) => item.kind === kind && hasWords(item, words))
      .sort((a, b) => compareStockItems(a.item, b.item));
  const table = { unit, keeper, onRemove: remove };
  return (
    <main className="page page-wide" id="screen" aria-busy={state.stock === null && state.words === null}>
      <div className="page-head">
        <h1>Shelf</h1>
        <div className="shelf-tools">
          <TextField label="Find on the shelf" value={words} onChange={setWords} />
          <ChoiceField label="Numbers without a unit are" choices={UNITS} chosen={unit} onChoose={setUnit} />
          <Button onPress={props.onImport}>Import CSV</Button>
          <Button onPress={exportStock}>Export CSV</Button>
        </div>
      </div>
      {state.words === null ? null : (
        <div className="actions">
          <p role="alert">{state.words}</p>
          <Button onPress={() => void keeper.read()}>Try again</Button>
        </div>
      )}
      {state.stock?.length === 0 ? (
        <p className="prose">
          The shelf is empty. Type one bend or straight a line, and Enter after each. Tube, CLR and legs stay for the
          next line, so only angle and count are left to type.
        </p>
      ) : null}
      {state.stock === null ? null : (
        <>
          <ShelfTable kind="bend" title="Bends" stock={shown('bend')} {...table} />
          <ShelfTable kind="straight" title="Straights" stock={shown('straight')} {...table} />
        </>
      )}
      <p className="muted" role="status">
        {state.status}
      </p>
    </main>
  );
}
