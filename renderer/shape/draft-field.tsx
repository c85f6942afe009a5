/** A field of a form that is taken as a whole: text is kept as typed and read when the form is. */

import { type Dispatch, type ReactNode, type SetStateAction, useState } from 'react';
import { Button } from '../ui/button.tsx';
import { TextField } from '../ui/fields/text-field.tsx';
import { FigureText } from '../ui/figure-text.tsx';

export type Drafts<Name extends string> = Readonly<Record<Name, string>>;

export interface DraftForm<Name extends string> {
  readonly texts: Drafts<Name>;
  readonly setTexts: Dispatch<SetStateAction<Drafts<Name>>>;
  readonly problem: { readonly field: Name | null; readonly words: string } | null;
  readonly setProblem: (problem: { readonly field: Name | null; readonly words: string } | null) => void;
}

/** `problem` stands at the field named, or at the end of the form. */
export function useDraftForm<Name extends string>(atStart: Drafts<Name>): DraftForm<Name> {
  const [texts, setTexts] = useState(atStart);
  const [problem, setProblem] = useState<DraftForm<Name>['problem']>(null);
  return { texts, setTexts, problem, setProblem };
}

interface Props<Name extends string> {
  readonly form: DraftForm<Name>;
  readonly name: Name;
  readonly label: string;
  readonly hint?: string;
}

export function DraftField<Name extends string>({ form, name, label, hint }: Props<Name>) {
  return (
    <TextField
      label={label}
      value={form.texts[name]}
      onChange={(text) => form.setTexts((before) => ({ ...before, [name]: text }))}
      problem={form.problem?.field === name ? form.problem.words : null}
      {...(hint === undefined ? {} : { hint })}
    />
  );
}

/** What is wrong with the fields together. */
export function FormProblem<Name extends string>({ form }: { readonly form: DraftForm<Name> }) {
  return form.problem !== null && form.problem.field === null ? (
    <p role="alert" className="field-problem">
      <FigureText text={form.problem.words} />
    </p>
  ) : null;
}

interface FormProps<Name extends string> {
  readonly form: DraftForm<Name>;
  readonly label: string;
  /** On the button that takes the form. */
  readonly takeWords: string;
  readonly onTake: () => void;
  readonly onClose: () => void;
  readonly children: ReactNode;
}

/** The form itself: its fields, what is wrong with them together, and the buttons that take it or put it away. */
export function ShapeForm<Name extends string>(props: FormProps<Name>) {
  return (
    <form
      className="shape-form"
      aria-label={props.label}
      onSubmit={(event) => {
        event.preventDefault();
        props.onTake();
      }}
    >
      {props.children}
      <FormProblem form={props.form} />
      <div className="actions">
        <Button look="main" type="submit">
          {props.takeWords}
        </Button>
        <Button onPress={props.onClose}>Close</Button>
      </div>
    </form>
  );
}
