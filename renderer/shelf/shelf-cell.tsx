/** One field of an item on the shelf: typed over in place, accepted by Enter or by leaving it. */

import { type ClipboardEvent, type KeyboardEvent, useId, useRef, useState } from 'react';
import { FigureText } from '../ui/figure-text.tsx';
import type { Column } from './shelf-columns.ts';
import { moveDown } from './shelf-keys.ts';

interface Props {
  readonly column: Column;
  readonly row: number;
  /** Which item, for the field's name. */
  readonly of: string;
  readonly text: string;
  /** Why the text cannot be read; null when it can. */
  readonly check: (text: string) => string | null;
  /** Null once it is on disk; else why not. The text stays in the field then. */
  readonly onAccept: (text: string) => Promise<string | null>;
  readonly onRemove: () => void;
  readonly onWhy: () => void;
  /** Cells of a spreadsheet, to be put in from here on; null when they are, else why not. */
  readonly onCells: (text: string) => Promise<string | null>;
}

/** The text being typed, and the way to accept or give it up. */
function useTyping({ text, check, onAccept }: Props) {
  /** Null while the field shows what is stored. */
  const [typed, setTyped] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  /** Enter moves on, and moving on is leaving: the same text must not be sent twice. */
  const onItsWay = useRef<string | null>(null);
  const restore = () => {
    setTyped(null);
    setProblem(null);
  };
  const send = async (wanted: string) => {
    onItsWay.current = wanted;
    const words = await onAccept(wanted);
    onItsWay.current = null;
    setProblem(words);
    if (words === null) setTyped((now) => (now === wanted ? null : now));
  };
  /** False when the text cannot be read. */
  const accept = (): boolean => {
    if (typed === null || typed === text) {
      restore();
      return true;
    }
    const words = check(typed);
    setProblem(words);
    if (words === null && onItsWay.current !== typed) void send(typed);
    return words === null;
  };
  const type = (next: string) => {
    setTyped(next);
    setProblem(null);
  };
  return { typed, problem, type, restore, accept, setProblem };
}

/** A plain field: a shelf has thousands of them, and what is out of sight is not drawn. */
export function ShelfCell(props: Props) {
  const { column, row, of, text } = props;
  const { typed, problem, type, restore, accept, setProblem } = useTyping(props);
  const id = useId();
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    const field = event.currentTarget;
    if (event.key === 'Escape') restore();
    else if (event.key === 'Delete' && (event.ctrlKey || event.metaKey)) props.onRemove();
    else if (event.key === 'Enter' && event.altKey) props.onWhy();
    else if (event.key === 'ArrowUp') moveDown(field, -1);
    else if (event.key === 'ArrowDown') moveDown(field, 1);
    else if (event.key === 'Enter') {
      if (accept()) moveDown(field, event.shiftKey ? -1 : 1);
    } else return;
    event.preventDefault();
  };
  const onPaste = (event: ClipboardEvent<HTMLInputElement>) => {
    const pasted = event.clipboardData.getData('text/plain');
    if (!/[\t\n\r]/.test(pasted.trim())) return;
    event.preventDefault();
    void props.onCells(pasted).then(setProblem);
  };
  return (
    <>
      <input
        className="field-input"
        aria-label={`${column.name} of ${of}`}
        aria-invalid={problem !== null}
        aria-describedby={problem === null ? undefined : id}
        data-invalid={problem === null ? undefined : ''}
        data-cell={`${row}:${column.id}`}
        data-words={column.id === 'material' || column.id === 'note' ? '' : undefined}
        data-stored={typed === null ? '' : undefined}
        value={typed ?? text}
        maxLength={2000}
        autoComplete="off"
        spellCheck={false}
        onChange={(event) => type(event.target.value)}
        onBlur={accept}
        onKeyDown={onKeyDown}
        onPaste={onPaste}
      />
      {problem === null ? null : (
        <p id={id} className="field-problem" role="alert">
          <FigureText text={problem} />
        </p>
      )}
    </>
  );
}
