/** The entry line with its text, and the draft that outlives a crash. */

import { type RefObject, useState } from 'react';
import type { LengthUnit, ShelfOffers } from '../../../core/index.ts';
import type { HeaderSession } from '../../session/header-session.ts';
import { EntryLine } from './entry-line.tsx';
import type { ReadBackPlace } from './read-back.tsx';

interface Props extends ReadBackPlace {
  readonly session: HeaderSession;
  readonly fieldRef: RefObject<HTMLInputElement | null>;
  readonly unit: LengthUnit;
  /** The keypad is on the screen, so the system's own is not wanted. */
  readonly hasKeypad: boolean;
  readonly offers: ShelfOffers;
  readonly place: string;
  readonly canGoToEnd: boolean;
  /** Null when taken, else why not. */
  readonly enter: (text: string) => string | null;
  /** The same for rows of a spreadsheet. */
  readonly enterRows: (text: string) => string | null;
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
  const { text, problem, type, enter, enterRows } = useEntryText(props);
  const { header, primary, at } = props;
  return (
    <div className="entry-panel">
      <EntryLine
        fieldRef={props.fieldRef}
        text={text}
        problem={problem}
        unit={props.unit}
        offers={props.offers}
        place={props.place}
        readBack={{ header, primary, at, stock: props.stock }}
        canGoToEnd={props.canGoToEnd}
        hasKeypad={props.hasKeypad}
        onText={type}
        onRows={enterRows}
        onEnter={enter}
        onEscape={() => (text === '' ? props.onGoToEnd() : type(''))}
        onGoToEnd={props.onGoToEnd}
        onUp={props.onUp}
        onPrimary={props.onPrimary}
      />
    </div>
  );
}

/** The text of the line: kept as a draft at every keystroke, gone once it is taken. */
function useEntryText({ session, primary, fieldRef, enter: take, enterRows: takeRows }: Props) {
  const field = `${ENTRY_FIELD}${primary.id}`;
  const [text, setText] = useState(() => session.textIn(field));
  const [problem, setProblem] = useState<string | null>(null);
  const type = (next: string) => {
    setText(next);
    setProblem(null);
    session.typed(field, next);
  };
  const enter = () => {
    if (text.trim() === '') return;
    const reason = take(text);
    if (reason === null) type('');
    else setProblem(reason);
    fieldRef.current?.focus();
  };
  /** What stands in the line stays there. */
  const enterRows = (rows: string) => setProblem(takeRows(rows));
  return { text, problem, type, enter, enterRows };
}
