/** The entry line with its text, its keypad, and the draft that outlives a crash. */

import { type RefObject, useState } from 'react';
import type { Length, LengthUnit } from '../../../core/index.ts';
import type { HeaderSession } from '../../session/header-session.ts';
import { EntryLine } from './entry-line.tsx';
import { asKind, Keypad } from './keypad.tsx';

interface Props {
  readonly session: HeaderSession;
  readonly primaryId: string;
  readonly fieldRef: RefObject<HTMLInputElement | null>;
  readonly unit: LengthUnit;
  readonly clrs: readonly Length[];
  readonly place: string;
  readonly canGoToEnd: boolean;
  readonly hasKeypad: boolean;
  /** Null when taken, else why not. */
  readonly enter: (text: string) => string | null;
  readonly onGoToEnd: () => void;
  readonly onUp: () => void;
  readonly onPrimary: (by: -1 | 1) => void;
}

const ENTRY_FIELD = 'entry:';

/** The primary that a leftover entry was typed for; null when the draft is of another field. */
export function primaryOfDraft(session: HeaderSession): string | null {
  const field = session.getState().draft?.field ?? '';
  return field.startsWith(ENTRY_FIELD) ? field.slice(ENTRY_FIELD.length) : null;
}

export function EntryPanel(props: Props) {
  const { fieldRef } = props;
  const { text, problem, type, enter, typeAtCaret } = useEntryText(props);
  const eraseBefore = () => {
    const hasRange = fieldRef.current?.selectionStart !== fieldRef.current?.selectionEnd;
    typeAtCaret('', hasRange ? 0 : 1);
  };
  return (
    <div className="entry-panel">
      <EntryLine
        fieldRef={fieldRef}
        text={text}
        problem={problem}
        unit={props.unit}
        clrs={props.clrs}
        place={props.place}
        canGoToEnd={props.canGoToEnd}
        onText={type}
        onEnter={enter}
        onEscape={() => (text === '' ? props.onGoToEnd() : type(''))}
        onGoToEnd={props.onGoToEnd}
        onUp={props.onUp}
        onPrimary={props.onPrimary}
      />
      {props.hasKeypad ? (
        <Keypad
          onKey={(key) => typeAtCaret(key)}
          onKind={(kind) => type(asKind(text, kind))}
          onBack={eraseBefore}
          onEnter={enter}
        />
      ) : null}
    </div>
  );
}

/** The text of the line: kept as a draft at every keystroke, gone once it is taken. */
function useEntryText({ session, primaryId, fieldRef, enter: take }: Props) {
  const [text, setText] = useState(() => session.textIn(`${ENTRY_FIELD}${primaryId}`));
  const [problem, setProblem] = useState<string | null>(null);
  const type = (next: string) => {
    setText(next);
    setProblem(null);
    session.typed(`${ENTRY_FIELD}${primaryId}`, next);
  };
  const enter = () => {
    if (text.trim() === '') return;
    const reason = take(text);
    if (reason === null) type('');
    else setProblem(reason);
    fieldRef.current?.focus();
  };
  /** Types at the caret, as a key would, in place of so many characters before it. */
  const typeAtCaret = (key: string, replaced = 0) => {
    const field = fieldRef.current;
    const from = Math.max(0, (field?.selectionStart ?? text.length) - replaced);
    const to = field?.selectionEnd ?? text.length;
    type(text.slice(0, from) + key + text.slice(to));
    requestAnimationFrame(() => {
      field?.focus();
      field?.setSelectionRange(from + key.length, from + key.length);
    });
  };
  return { text, problem, type, enter, typeAtCaret };
}
