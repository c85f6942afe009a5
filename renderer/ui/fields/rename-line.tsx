/** A name being changed in place: Enter or leaving accepts, Escape leaves it as it was. */

import { useEffect, useRef, useState } from 'react';
import { TextField } from './text-field.tsx';

interface RenameLineProps {
  readonly name: string;
  /** Null: left unchanged. */
  readonly onDone: (name: string | null) => void;
}

export function RenameLine({ name, onDone }: RenameLineProps) {
  const [text, setText] = useState(name);
  const isDone = useRef(false);
  const field = useRef<HTMLInputElement>(null);
  // Typing replaces the name, an arrow key goes on from it.
  useEffect(() => field.current?.select(), []);
  // Enter and Escape take the field away, and a field that goes away may still report a blur.
  const finish = (next: string | null) => {
    if (isDone.current) return;
    isDone.current = true;
    onDone(next);
  };
  const accept = () => finish(text.trim() === '' || text.trim() === name ? null : text.trim());
  return (
    <TextField
      label={`New name of ${name}`}
      labelHidden
      holdsWords
      value={text}
      onChange={setText}
      autoFocus
      inputRef={field}
      maxLength={120}
      onBlur={accept}
      onKeyDown={(event) => {
        if (event.key === 'Enter') accept();
        if (event.key === 'Escape') finish(null);
      }}
    />
  );
}
