/** One field of an item on the shelf: typed over in place, accepted by Enter or by leaving it. */

import { type KeyboardEvent, useRef, useState } from 'react';
import { TextField } from '../ui/fields/text-field.tsx';
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
  return { typed, problem, type, restore, accept };
}

export function ShelfCell(props: Props) {
  const { column, row, of, text, onRemove } = props;
  const { typed, problem, type, restore, accept } = useTyping(props);
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    const field = event.currentTarget;
    if (event.key === 'Escape') restore();
    else if (event.key === 'Delete' && (event.ctrlKey || event.metaKey)) onRemove();
    else if (event.key === 'ArrowUp') moveDown(field, -1);
    else if (event.key === 'ArrowDown') moveDown(field, 1);
    else if (event.key === 'Enter') {
      if (accept()) moveDown(field, event.shiftKey ? -1 : 1);
    } else return;
    event.preventDefault();
  };
  return (
    <TextField
      label={`${column.name} of ${of}`}
      labelHidden
      value={typed ?? text}
      onChange={type}
      problem={problem}
      cell={`${row}:${column.id}`}
      onBlur={accept}
      onKeyDown={onKeyDown}
    />
  );
}
