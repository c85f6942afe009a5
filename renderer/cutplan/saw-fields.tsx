/** Kerf, facing and the shortest remnant worth keeping: taken on Enter or on leaving the field. */

import { type LengthStyle, type TypedSaw, typedText, unitOf } from '../../core/index.ts';
import { TypedField } from '../ui/fields/typed-field.tsx';
import { readSawField, SAW_FIELDS } from './saw-settings.ts';

interface Props {
  readonly saw: TypedSaw;
  readonly style: LengthStyle;
  readonly onSet: (saw: TypedSaw) => void;
}

export function SawFields({ saw, style, onSet }: Props) {
  return (
    <div className="cut-saw">
      {SAW_FIELDS.map(({ id, name, mostMm }) => (
        <TypedField
          key={id}
          label={`${name} (${unitOf(style)})`}
          stored={typedText(saw[id], unitOf(style))}
          take={(text) => {
            const read = readSawField(text, style, mostMm);
            if (!read.ok) return read.words;
            onSet({ ...saw, [id]: read.length });
            return null;
          }}
        />
      ))}
    </div>
  );
}
