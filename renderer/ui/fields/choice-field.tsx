/** A labelled choice of one thing out of a few. */

import { useId } from 'react';
import type { Choice } from './choice-menu.tsx';

interface Props<Id extends string> {
  readonly label: string;
  readonly choices: readonly Choice<Id>[];
  readonly chosen: Id;
  readonly onChoose: (id: Id) => void;
}

/** The platform's own list: it works with every input device there is, gloves included. */
export function ChoiceField<Id extends string>({ label, choices, chosen, onChoose }: Props<Id>) {
  const id = useId();
  return (
    <div className="field">
      <label className="field-label" htmlFor={id}>
        {label}
      </label>
      <select
        id={id}
        className="field-choice"
        value={chosen}
        onChange={(event) => {
          const choice = choices.find((candidate) => candidate.id === event.target.value);
          if (choice) onChoose(choice.id);
        }}
      >
        {choices.map((choice) => (
          <option key={choice.id} value={choice.id}>
            {choice.name}
          </option>
        ))}
      </select>
    </div>
  );
}
