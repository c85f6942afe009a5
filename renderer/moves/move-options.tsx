/** What a move may do: how many joints it breaks, how short a straight may get, how near it may come, what the shelf has. */

import {
  formatTyped,
  type Header,
  parseLength,
  type StockItem,
  setSettingsEdit,
  success,
  unitOf,
} from '../../core/index.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { ChoiceField } from '../ui/fields/choice-field.tsx';
import { LengthField, TakenField } from '../ui/fields/length-field.tsx';
import { countOf } from '../ui/words/spoken.ts';
import type { MoveSettings } from './move-settings.ts';

interface Props {
  readonly session: HeaderSession;
  readonly header: Header;
  readonly stock: readonly StockItem[] | null;
  readonly settings: MoveSettings;
  readonly onSet: (settings: Partial<MoveSettings>) => void;
}

const JOINT_COUNTS = [0, 1, 2, 3, 4, 5, 6] as const;

const JOINT_CHOICES = [
  { id: 'any', name: 'Any number' },
  ...JOINT_COUNTS.map((count) => ({ id: String(count), name: countOf(count, 'joint') })),
];

export function MoveOptionsPanel({ session, header, stock, settings, onSet }: Props) {
  const unit = unitOf(header.settings.display);
  const { mostJoints, clearanceKept, usesShelf, addsBends } = settings;
  return (
    <div className="move-options">
      <ChoiceField
        label="Joints to be made at most"
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
        label={`Clearance kept, ${unit}`}
        stored={clearanceKept === null ? 'any' : formatTyped(clearanceKept, unit)}
        take={(text) => {
          const read = /^(?:any)?$/i.test(text.trim()) ? success(null) : parseLength(text, unit);
          if (read.ok) onSet({ clearanceKept: read.value });
          return read;
        }}
      />
      <label className="choice">
        <input type="checkbox" checked={addsBends} onChange={(event) => onSet({ addsBends: event.target.checked })} />
        Moves may let in new bends
      </label>
      <label className="choice">
        <input type="checkbox" checked={usesShelf} onChange={(event) => onSet({ usesShelf: event.target.checked })} />
        {shelfWords(stock)}
      </label>
    </div>
  );
}

function shelfWords(stock: readonly StockItem[] | null): string {
  if (stock === null) return 'Consider the shelf, which could not be read';
  if (stock.length === 0) return 'Consider the shelf, which has nothing on it yet';
  return `Consider the shelf: ${countOf(stock.length, 'line')}`;
}
