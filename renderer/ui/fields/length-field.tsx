/** A length setting: typed text is taken on Enter or on leaving the field, and stays with the reason when it is refused. */

import { useState } from 'react';
import {
  type Length,
  type LengthUnit,
  type Problem,
  parseLength,
  type Result,
  typedText,
} from '../../../core/index.ts';
import { wordsFor } from '../words/problem-words.ts';
import { TextField } from './text-field.tsx';
import { withDecimalPoints } from './typed-numbers.ts';

interface Props {
  readonly label: string;
  readonly value: Length;
  readonly unit: LengthUnit;
  readonly onTake: (length: Length) => Result<unknown, Problem>;
}

export function LengthField({ label, value, unit, onTake }: Props) {
  return (
    <TakenField
      label={`${label} (${unit})`}
      stored={typedText(value, unit)}
      take={(text) => {
        const read = parseLength(withDecimalPoints(text), unit);
        return read.ok ? onTake(read.value) : read;
      }}
    />
  );
}

interface TakenProps {
  readonly label: string;
  /** The text of what is stored now. */
  readonly stored: string;
  /** A name rather than a figure. */
  readonly holdsWords?: boolean;
  readonly take: (text: string) => Result<unknown, Problem>;
}

export function TakenField({ label, stored, holdsWords = false, take }: TakenProps) {
  /** Null while the field shows what is stored. */
  const [typed, setTyped] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const commit = () => {
    if (typed === null) return;
    const taken = typed.trim() === stored ? { ok: true as const } : take(typed);
    setProblem(taken.ok ? null : wordsFor(taken.problems));
    if (taken.ok) setTyped(null);
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
