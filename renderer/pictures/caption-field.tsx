/** The caption of a picture: one line, taken when Enter is pressed or the field is left. */

import { useState } from 'react';
import { TextField } from '../ui/fields/text-field.tsx';

/** As long as a name may be. */
const CAPTION_LIMIT = 120;

interface Props {
  readonly label: string;
  readonly caption: string;
  readonly onChange: (caption: string) => void;
}

export function CaptionField({ label, caption, onChange }: Props) {
  const [text, setText] = useState(caption);
  const take = () => {
    const next = text.trim();
    if (next !== caption) onChange(next);
  };
  return (
    <TextField
      label={label}
      labelHidden
      holdsWords
      placeholder="Caption"
      maxLength={CAPTION_LIMIT}
      value={text}
      onChange={setText}
      onBlur={take}
      onKeyDown={(event) => {
        if (event.key === 'Enter') take();
      }}
    />
  );
}
