/** Which primaries are meant. */

import type { Primary } from '../../../core/index.ts';
import { primaryTitle } from '../../ui/words/verdict-words.ts';

interface Props {
  readonly legend: string;
  readonly primaries: readonly Primary[];
  readonly chosen: ReadonlySet<string>;
  readonly onChange: (chosen: ReadonlySet<string>) => void;
}

/** A tick box for all of them, and one for each primary. */
export function PrimaryChoices({ legend, primaries, chosen, onChange }: Props) {
  return (
    <fieldset className="shape-choices">
      <legend className="field-label">{legend}</legend>
      <label className="choice">
        <input
          type="checkbox"
          checked={primaries.every(({ id }) => chosen.has(id))}
          onChange={(event) => onChange(new Set(event.target.checked ? primaries.map(({ id }) => id) : []))}
        />
        All
      </label>
      {primaries.map(({ id, name }) => (
        <label key={id} className="choice">
          <input
            type="checkbox"
            checked={chosen.has(id)}
            onChange={(event) => {
              const next = new Set(chosen);
              if (event.target.checked) next.add(id);
              else next.delete(id);
              onChange(next);
            }}
          />
          {primaryTitle(name)}
        </label>
      ))}
    </fieldset>
  );
}
