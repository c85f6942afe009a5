/** Kerf, facing and the shortest remnant worth keeping: taken on Enter or on leaving the field. */

import { useState } from 'react';
import { type Length, type LengthStyle, typedText, unitOf } from '../../core/index.ts';
import { TextField } from '../ui/fields/text-field.tsx';
import { type KeptSaw, readSawField, SAW_FIELDS } from './saw-settings.ts';

interface Props {
  readonly saw: KeptSaw;
  readonly style: LengthStyle;
  readonly onSet: (saw: KeptSaw) => void;
}

export function SawFields({ saw, style, onSet }: Props) {
  return (
    <div className="cut-saw">
      {SAW_FIELDS.map(({ id, name, mostMm }) => (
        <SawField
          key={id}
          label={`${name} (${unitOf(style)})`}
          stored={typedText(saw[id], unitOf(style))}
          read={(text) => readSawField(text, style, mostMm)}
          onTake={(length) => onSet({ ...saw, [id]: length })}
        />
      ))}
    </div>
  );
}

interface FieldProps {
  readonly label: string;
  readonly stored: string;
  readonly read: (text: string) => ReturnType<typeof readSawField>;
  readonly onTake: (length: Length) => void;
}

function SawField({ label, stored, read, onTake }: FieldProps) {
  /** Null while the field shows what is kept. */
  const [typed, setTyped] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const restore = () => {
    setTyped(null);
    setProblem(null);
  };
  const take = () => {
    if (typed === null) return;
    if (typed.trim() === stored) return restore();
    const found = read(typed);
    if (!found.ok) return setProblem(found.words);
    restore();
    onTake(found.length);
  };
  return (
    <TextField
      label={label}
      value={typed ?? stored}
      onChange={setTyped}
      problem={problem}
      onBlur={take}
      onKeyDown={(event) => {
        if (event.key === 'Enter') take();
        if (event.key === 'Escape') restore();
      }}
    />
  );
}
