/** A field whose typed text is taken on Enter or on leaving it, and stays with the reason when it is refused. */

import { useState } from 'react';
import { TextField } from './text-field.tsx';

interface Props {
  readonly label: string;
  /** The text of what is stored now. */
  readonly stored: string;
  /** A name rather than a figure. */
  readonly holdsWords?: boolean;
  /** Given text that differs from what is stored; answers why it is refused, or null once it is taken. */
  readonly take: (text: string) => string | null;
}

/** Escape puts back what is stored. */
export function TypedField({ label, stored, holdsWords = false, take }: Props) {
  /** Null while the field shows what is stored. */
  const [typed, setTyped] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const commit = () => {
    if (typed === null) return;
    const refused = typed.trim() === stored ? null : take(typed);
    setProblem(refused);
    if (refused === null) setTyped(null);
  };
  return (
    <TextField
      label={label}
      value={typed ?? stored}
      onChange={setTyped}
      problem={problem}
      holdsWords={holdsWords}
      onBlur={commit}
      onKeyDown={(event) => {
        if (event.key === 'Enter') commit();
        if (event.key !== 'Escape' || typed === null) return;
        setTyped(null);
        setProblem(null);
      }}
    />
  );
}
