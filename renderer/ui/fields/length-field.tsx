/** A length setting, taken on Enter or on leaving the field. */

import {
  type Length,
  type LengthUnit,
  type Problem,
  parseLength,
  type Result,
  typedText,
} from '../../../core/index.ts';
import { wordsFor } from '../words/problem-words.ts';
import { TypedField } from './typed-field.tsx';
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

/** As `TypedField`, with problems as core gives them. */
export function TakenField({ take, ...field }: TakenProps) {
  return (
    <TypedField
      {...field}
      take={(text) => {
        const taken = take(text);
        return taken.ok ? null : wordsFor(taken.problems);
      }}
    />
  );
}
