/** Two lines under the entry field that never change their height: what Enter will do, and what is odd or can be typed. */

import { useMemo } from 'react';
import { type Header, type Primary, readBackEntry, type StockItem, tubeOf, unitOf } from '../../../core/index.ts';
import { writesDecimalComma } from '../../ui/fields/typed-numbers.ts';
import { FigureText } from '../../ui/figure-text.tsx';
import { SpokenStatus } from '../../ui/spoken-status.tsx';
import { wordsFor } from '../../ui/words/problem-words.ts';
import { ENTRY_HINTS, noteWords, readBackWords } from './read-back-words.ts';
import { lackWords } from './shelf-mark.ts';

export interface ReadBackPlace {
  readonly header: Header;
  readonly primary: Primary;
  /** Place in the primary, from 0, that the next piece gets. */
  readonly at: number;
  /** Null: the shelf was not read. */
  readonly stock: readonly StockItem[] | null;
}

interface Props extends ReadBackPlace {
  readonly text: string;
}

interface Lines {
  readonly kind: 'hint' | 'reads' | 'unread';
  readonly first: string;
  readonly second: string;
  /** Whether the second line warns. */
  readonly isOdd: boolean;
}

function linesFor({ text, header, primary, at, stock }: Props): Lines {
  const { display } = header.settings;
  const [firstHint, secondHint] = ENTRY_HINTS[unitOf(display)];
  if (text.trim() === '') return { kind: 'hint', first: firstHint, second: secondHint, isOdd: false };
  const read = readBackEntry(header, { text, primary, at, decimalComma: writesDecimalComma() });
  if (!read.ok) return { kind: 'unread', first: wordsFor(read.problems), second: secondHint, isOdd: false };
  const lacks = lackWords(read.value, stock, tubeOf(header, primary));
  const odd = [noteWords(read.value, display), lacks].filter(Boolean).join(' ');
  return {
    kind: 'reads',
    first: readBackWords(read.value, header),
    second: odd === '' ? secondHint : odd,
    isOdd: odd !== '',
  };
}

export function ReadBack({ text, header, primary, at, stock }: Props) {
  const lines = useMemo(() => linesFor({ text, header, primary, at, stock }), [text, header, primary, at, stock]);
  const { kind, first, second, isOdd } = lines;
  const spoken = kind === 'hint' ? '' : isOdd ? `${first}. ${second}` : first;
  return (
    <div className="read-back">
      <p className="read-back-does" data-kind={kind}>
        <FigureText text={first} />
      </p>
      <p className="read-back-note" data-odd={isOdd || undefined}>
        {isOdd ? <span aria-hidden="true">⚠ </span> : null}
        <FigureText text={second} />
      </p>
      <SpokenStatus text={spoken} />
    </div>
  );
}
