/** A labelled line of text, with what is wrong with it said right there. */

import type { KeyboardEvent, Ref } from 'react';
import { TextField as AriaTextField, FieldError, Input, Label, Text } from 'react-aria-components';
import { FigureText } from '../figure-text.tsx';

export interface TextFieldProps {
  readonly label: string;
  readonly value: string;
  readonly onChange: (text: string) => void;
  /** In a table the column heading is the visible label; the field still has its name. */
  readonly labelHidden?: boolean;
  /** What was read, why not, and what would do. Null when all is well. */
  readonly problem?: string | null;
  readonly hint?: string;
  readonly placeholder?: string;
  /** A name may well hold an å: signs typed with Option on a Mac stay in the field, where elsewhere they are commands. */
  readonly holdsWords?: boolean;
  readonly autoFocus?: boolean;
  readonly isDisabled?: boolean;
  readonly onBlur?: () => void;
  readonly onKeyDown?: (event: KeyboardEvent<HTMLInputElement>) => void;
  readonly inputRef?: Ref<HTMLInputElement>;
  /** For cells: which column of which row, so that arrow keys can find their way. */
  readonly cell?: string;
  readonly maxLength?: number;
}

export function TextField(props: TextFieldProps) {
  const problem = props.problem ?? null;
  return (
    <AriaTextField
      className="field"
      value={props.value}
      onChange={props.onChange}
      isInvalid={problem !== null}
      isDisabled={props.isDisabled ?? false}
      {...(props.labelHidden ? { 'aria-label': props.label } : {})}
    >
      {props.labelHidden ? null : <Label className="field-label">{props.label}</Label>}
      <Input
        className="field-input"
        placeholder={props.placeholder ?? ''}
        inputMode="text"
        maxLength={props.maxLength ?? 400}
        autoComplete="off"
        spellCheck={false}
        autoFocus={props.autoFocus ?? false}
        data-cell={props.cell}
        data-words={props.holdsWords ? '' : undefined}
        {...(props.onBlur ? { onBlur: props.onBlur } : {})}
        {...(props.onKeyDown ? { onKeyDown: props.onKeyDown } : {})}
        {...(props.inputRef ? { ref: props.inputRef } : {})}
      />
      {props.hint ? (
        <Text slot="description" className="field-hint">
          {props.hint}
        </Text>
      ) : null}
      {problem === null ? null : (
        <FieldError className="field-problem">
          <FigureText text={problem} />
        </FieldError>
      )}
    </AriaTextField>
  );
}
