/** The shelf: the shop's stock book, entered by keyboard, from a spreadsheet or from a CSV file. */

import { useMemo, useState } from 'react';
import { demoShelf, isLow, type LengthUnit, stockItemWords } from '../../core/index.ts';
import { useCommands } from '../commands/command-registry.ts';
import { finishExport } from '../host/files.ts';
import { useAsk } from '../host/host-bridge.ts';
import { Button } from '../ui/button.tsx';
import { useNotice } from '../ui/notices.tsx';
import { freshId } from '../ui/random-id.ts';
import { countOf } from '../ui/words/spoken.ts';
import { firstField } from './new-item-row.tsx';
import type { ShelfKeeper, ShelfState, Stored } from './shelf-keeper.ts';
import { focusCell } from './shelf-keys.ts';
import { inShelfOrder, type Shown, shownRows } from './shelf-search.ts';
import { startOf, type TubeInHand } from './shelf-start.ts';
import { ShelfTable } from './shelf-table.tsx';
import { ShelfTools } from './shelf-tools.tsx';
import { useShelf } from './use-shelf.ts';
import { WhyThisCount } from './why-this-count.tsx';
import './shelf.css';

interface Props {
  /** Unit of numbers typed without one, at first. */
  readonly unit: LengthUnit;
  /** What the header in hand is made of; null while none is open. */
  readonly inHand: TubeInHand | null;
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

/** What is done at once and can be taken back; a refusal is said at the foot of the window. */
function useActs(keeper: ShelfKeeper) {
  const say = useNotice();
  const trouble = (words: string | null) => {
    if (words !== null) say({ text: words, tone: 'trouble' });
  };
  const turnBack = (action: 'undo' | 'redo') => void keeper.turnBack(action).then(trouble);
  return {
    turnBack,
    remove: ({ item }: Stored) =>
      void keeper.remove([item.id]).then((words) => {
        if (words !== null) return trouble(words);
        say({ text: `Removed: ${stockItemWords(item)}.`, act: { name: 'Put it back', run: () => turnBack('undo') } });
      }),
    fillWithDemo: () => void keeper.add(demoShelf(freshId)).then(trouble),
  };
}

/** Undo, redo and the way into the new row, by name and by key. */
function useShelfCommands(
  { history, status }: ShelfState,
  turnBack: (action: 'undo' | 'redo') => void,
  exportStock: () => void,
) {
  const turning = (id: 'undo' | 'redo', name: string) => {
    const label = history[id]?.label ?? null;
    // What is still being saved can be turned back in its turn.
    const isNothing = label === null && status !== 'Saving…';
    return {
      id,
      name: label === null ? name : `${name}: ${label}`,
      unavailable: isNothing ? `Nothing to ${id} on the shelf.` : null,
      run: () => turnBack(id),
    };
  };
  useCommands([
    { id: 'exportStock', run: exportStock },
    turning('undo', 'Undo'),
    turning('redo', 'Redo'),
    { id: 'entryLine', run: focusNewRow },
  ]);
}

function focusNewRow(): void {
  const table = document.querySelector<HTMLElement>('.shelf-table');
  const material = table?.querySelector<HTMLInputElement>('input[data-cell="0:material"]')?.value ?? '';
  const kind = table?.querySelector('input[data-cell="0:angle"]') ? 'bend' : 'straight';
  focusCell(table, 0, firstField(kind, { material }));
}

export function ShelfScreen(props: Props) {
  const { keeper, state } = useShelf();
  const acts = useActs(keeper);
  const exportStock = useExport();
  const [unit, setUnit] = useState(props.unit);
  const [asked, setAsked] = useState<{ words: string; shown: Shown }>({ words: '', shown: 'all' });
  const [why, setWhy] = useState<Stored | null>(null);
  useShelfCommands(state, acts.turnBack, exportStock);
  const stock = useMemo(() => inShelfOrder(state.stock ?? []), [state.stock]);
  const rows = useMemo(() => shownRows(stock, asked.shown, asked.words), [stock, asked]);
  return (
    <main className="page shelf" id="screen" aria-busy={state.stock === null && state.words === null}>
      <div className="page-head">
        <h1>Shelf</h1>
        <ShelfTools
          {...{ asked, unit, history: state.history }}
          low={stock.filter(({ item }) => isLow(item)).length}
          onAsk={setAsked}
          onUnit={setUnit}
          onTurnBack={acts.turnBack}
          onImport={props.onImport}
          onExport={exportStock}
        />
      </div>
      <Unread state={state} keeper={keeper} />
      {state.stock?.length === 0 ? <EmptyShelf onDemo={acts.fillWithDemo} /> : null}
      {state.stock === null ? null : (
        <ShelfTable
          {...{ rows, keeper, unit }}
          start={{
            bend: startOf('bend', state.stock, props.inHand),
            straight: startOf('straight', state.stock, props.inHand),
          }}
          onRemove={acts.remove}
          onWhy={setWhy}
        />
      )}
      <p className="muted shelf-foot" role="status">
        {[countWords(state, rows.length), state.status, state.said].filter(Boolean).join(' · ')}
      </p>
      {why === null ? null : <WhyThisCount stored={why} onClose={() => setWhy(null)} />}
    </main>
  );
}

function countWords({ stock }: ShelfState, shown: number): string {
  const all = stock?.length ?? 0;
  if (all === 0) return '';
  return shown === all ? countOf(all, 'row') : `${shown} of ${countOf(all, 'row')}`;
}

function Unread({ state, keeper }: { readonly state: ShelfState; readonly keeper: ShelfKeeper }) {
  if (state.words === null) return null;
  return (
    <div className="actions">
      <p role="alert">{state.words}</p>
      <Button onPress={() => void keeper.read()}>Try again</Button>
    </div>
  );
}

function EmptyShelf({ onDemo }: { readonly onDemo: () => void }) {
  return (
    <div className="actions">
      <p className="prose">
        The shelf is empty. Type one bend or straight a line, and Enter after each; 90 x4 is four of them. Tube, CLR and
        legs stay for the next line, so only the angle is left to type. Rows copied in a spreadsheet can be pasted.
      </p>
      <Button onPress={onDemo}>Fill with a demo shelf</Button>
    </div>
  );
}
