/** Above the shelf: the search, what is shown, the unit of bare numbers, undo and redo, and files. */

import { Redo2, Undo2 } from 'lucide-react';
import type { LengthUnit } from '../../core/index.ts';
import { Button } from '../ui/button.tsx';
import { ChoiceField } from '../ui/fields/choice-field.tsx';
import { TextField } from '../ui/fields/text-field.tsx';
import { IconButton } from '../ui/icon-button.tsx';
import type { ShelfState } from './shelf-keeper.ts';
import { SHOWN, type Shown } from './shelf-search.ts';

const UNITS = [
  { id: 'in', name: 'inches' },
  { id: 'mm', name: 'millimetres' },
] as const;

export interface Asked {
  readonly words: string;
  readonly shown: Shown;
}

interface Props {
  readonly asked: Asked;
  readonly unit: LengthUnit;
  readonly history: ShelfState['history'];
  /** How many rows have less than the shop wants. */
  readonly low: number;
  readonly onAsk: (asked: Asked) => void;
  readonly onUnit: (unit: LengthUnit) => void;
  readonly onTurnBack: (action: 'undo' | 'redo') => void;
  readonly onImport: () => void;
  readonly onExport: () => void;
}

export function ShelfTools(props: Props) {
  const { asked, history, low } = props;
  const choices = SHOWN.map((choice) => (choice.id === 'low' ? { ...choice, name: `low stock (${low})` } : choice));
  return (
    <div className="shelf-tools">
      <TextField label="Find on the shelf" value={asked.words} onChange={(words) => props.onAsk({ ...asked, words })} />
      <ChoiceField
        label="Show"
        choices={choices}
        chosen={asked.shown}
        onChoose={(shown) => props.onAsk({ ...asked, shown })}
      />
      <ChoiceField label="Numbers without a unit are" choices={UNITS} chosen={props.unit} onChoose={props.onUnit} />
      <div className="shelf-turns">
        <TurnButton action="undo" label={history.undo?.label ?? null} onPress={props.onTurnBack} />
        <TurnButton action="redo" label={history.redo?.label ?? null} onPress={props.onTurnBack} />
      </div>
      <Button onPress={props.onImport}>Import CSV</Button>
      <Button onPress={props.onExport}>Export CSV</Button>
    </div>
  );
}

interface TurnProps {
  readonly action: 'undo' | 'redo';
  readonly label: string | null;
  readonly onPress: (action: 'undo' | 'redo') => void;
}

function TurnButton({ action, label, onPress }: TurnProps) {
  const name = action === 'undo' ? 'Undo' : 'Redo';
  return (
    <IconButton
      Icon={action === 'undo' ? Undo2 : Redo2}
      name={label === null ? name : `${name}: ${label}`}
      isDisabled={label === null}
      onPress={() => onPress(action)}
    />
  );
}
