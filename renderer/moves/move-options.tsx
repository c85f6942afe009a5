/** The limits that moves keep to: joints, shortest straight, minimum clearance, new bends, what the shelf has; and what they are ranked by. */

import { useMemo } from 'react';
import {
  type Header,
  type Primary,
  parseLength,
  type SawSettings,
  type StockItem,
  setSettingsEdit,
  success,
  typedText,
  unitOf,
} from '../../core/index.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { ChoiceField } from '../ui/fields/choice-field.tsx';
import { LengthField, TakenField } from '../ui/fields/length-field.tsx';
import { withDecimalPoints } from '../ui/fields/typed-numbers.ts';
import { countOf } from '../ui/words/spoken.ts';
import type { MovePrices } from './move-prices.ts';
import { MovePricesFields } from './move-prices-fields.tsx';
import { BUDGETS_MS, type MoveSettings } from './move-settings.ts';
import { useStockLeft } from './use-stock-left.ts';

interface Props {
  readonly session: HeaderSession;
  readonly header: Header;
  readonly primary: Primary;
  readonly stock: readonly StockItem[] | null;
  readonly saw: SawSettings;
  readonly settings: MoveSettings;
  readonly onSet: (settings: Partial<MoveSettings>) => void;
  readonly prices: MovePrices;
  readonly onPrices: (prices: MovePrices) => void;
}

const JOINT_COUNTS = [0, 1, 2, 3, 4, 5, 6] as const;

const JOINT_CHOICES = [
  { id: 'any', name: 'Any number' },
  ...JOINT_COUNTS.map((count) => ({ id: String(count), name: countOf(count, 'joint') })),
];

const BUDGET_CHOICES = BUDGETS_MS.map((ms) => ({ id: String(ms), name: `${ms / 1000} s` }));

export function MoveOptionsPanel(props: Props) {
  const { session, header, primary, stock, settings, onSet, prices, onPrices } = props;
  const changing = useMemo(() => [primary.id], [primary.id]);
  const left = useStockLeft(props, changing);
  const unit = unitOf(header.settings.display);
  const { mostJoints, clearanceKept, usesShelf, addsBends, budgetMs } = settings;
  return (
    <div className="move-options">
      <ChoiceField
        label="Joints to make, at most"
        choices={JOINT_CHOICES}
        chosen={mostJoints === null ? 'any' : String(Math.min(mostJoints, JOINT_COUNTS.length - 1))}
        onChoose={(id) => onSet({ mostJoints: id === 'any' ? null : Number(id) })}
      />
      <LengthField
        label="Shortest straight"
        value={header.settings.shortestStraight}
        unit={unit}
        onTake={(shortestStraight) => session.apply(setSettingsEdit({ shortestStraight }))}
      />
      <TakenField
        label={`Minimum clearance (${unit})`}
        stored={clearanceKept === null ? 'any' : typedText(clearanceKept, unit)}
        take={(text) => {
          const read = /^(?:any)?$/i.test(text.trim()) ? success(null) : parseLength(withDecimalPoints(text), unit);
          if (read.ok) onSet({ clearanceKept: read.value });
          return read;
        }}
      />
      <ChoiceField
        label="Search time for a primary"
        choices={BUDGET_CHOICES}
        chosen={String(budgetMs)}
        onChoose={(id) => onSet({ budgetMs: Number(id) })}
      />
      <MovePricesFields unit={unit} prices={prices} onSet={onPrices} />
      <label className="choice">
        <input type="checkbox" checked={addsBends} onChange={(event) => onSet({ addsBends: event.target.checked })} />
        Moves may add bends
      </label>
      <label className="choice">
        <input type="checkbox" checked={usesShelf} onChange={(event) => onSet({ usesShelf: event.target.checked })} />
        {shelfWords(stock, left !== stock)}
      </label>
    </div>
  );
}

/** @param isLess other runners' planned pieces are cut from it first */
function shelfWords(stock: readonly StockItem[] | null, isLess: boolean): string {
  if (stock === null) return 'Use the shelf (it could not be read)';
  if (stock.length === 0) return 'Use the shelf (it is empty)';
  const rows = `Use the shelf: ${countOf(stock.length, 'row')}`;
  return isLess ? `${rows}, less what the planned pieces of other runners are cut from` : rows;
}
