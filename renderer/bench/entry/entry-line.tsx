/** The line in which the next piece is typed: always in the same place, ready again after each accepted entry. */

import { type ClipboardEvent, type KeyboardEvent, type RefObject, useId, useState } from 'react';
import { assertNever, type LengthUnit, type ShelfOffers } from '../../../core/index.ts';
import { FigureText } from '../../ui/figure-text.tsx';
import { EntryHelp } from './entry-help.tsx';
import { type Suggestion, suggestStock } from './entry-suggestions.ts';
import { ReadBack, type ReadBackPlace } from './read-back.tsx';

interface Props {
  readonly fieldRef: RefObject<HTMLInputElement | null>;
  readonly text: string;
  readonly problem: string | null;
  readonly unit: LengthUnit;
  /** What the shelf has in this tube. */
  readonly offers: ShelfOffers;
  /** Where the piece will go: "at the end", "after piece 3". */
  readonly place: string;
  readonly readBack: ReadBackPlace;
  readonly canGoToEnd: boolean;
  readonly hasKeypad: boolean;
  readonly onText: (text: string) => void;
  /** Rows of a spreadsheet were pasted. */
  readonly onRows: (text: string) => void;
  readonly onEnter: () => void;
  readonly onEscape: () => void;
  readonly onGoToEnd: () => void;
  /** Up into the grid. */
  readonly onUp: () => void;
  /** To another primary. */
  readonly onPrimary: (by: -1 | 1) => void;
}

export function EntryLine(props: Props) {
  const { text, problem } = props;
  const id = useId();
  const offers = useOffers(props);
  return (
    <div className="entry">
      <EntryHead fieldId={`${id}-field`} {...props} />
      <div className="entry-row">
        <input
          ref={props.fieldRef}
          id={`${id}-field`}
          className="entry-field"
          role="combobox"
          aria-expanded={offers.offered.length > 0}
          aria-controls={`${id}-list`}
          aria-autocomplete="list"
          aria-activedescendant={offers.offered[offers.chosen] === undefined ? undefined : `${id}-${offers.chosen}`}
          aria-invalid={problem !== null}
          aria-describedby={problem === null ? undefined : `${id}-problem`}
          value={text}
          inputMode={props.hasKeypad ? 'none' : 'text'}
          autoComplete="off"
          autoCapitalize="off"
          spellCheck={false}
          enterKeyHint="enter"
          maxLength={400}
          onChange={(event) => offers.type(event.target.value)}
          onKeyDown={(event) => pressInEntry(event, props, offers)}
          onPaste={(event) => pasteRows(event, props)}
          onBlur={offers.close}
        />
        <EntryHelp />
      </div>
      <Offers id={id} {...offers} />
      <div className="entry-under">
        {problem === null ? (
          <ReadBack text={text} {...props.readBack} />
        ) : (
          <p id={`${id}-problem`} className="field-problem" role="alert">
            <FigureText text={problem} />
          </p>
        )}
      </div>
    </div>
  );
}

/** Cells and lines are rows of pieces; a field would take them as one line without its breaks. */
function pasteRows(event: ClipboardEvent, { onRows }: Props): void {
  const pasted = event.clipboardData.getData('text/plain').trim();
  if (!/[\t\n\r]/.test(pasted)) return;
  event.preventDefault();
  onRows(pasted);
}

function EntryHead({ fieldId, place, canGoToEnd, onGoToEnd }: Props & { readonly fieldId: string }) {
  return (
    <div className="entry-head">
      <label htmlFor={fieldId}>Next piece</label>
      <span className="entry-place">
        {place}
        {canGoToEnd ? (
          <button type="button" className="link-button" onClick={onGoToEnd}>
            Enter at the end instead
          </button>
        ) : null}
      </span>
    </div>
  );
}

interface OffersNow {
  readonly offered: readonly Suggestion[];
  /** Place in the offers; -1 for none. */
  readonly chosen: number;
  readonly choose: (at: number) => void;
  readonly close: () => void;
  readonly type: (text: string) => void;
  readonly take: (suggestion: Suggestion) => void;
}

/** Offers are open from a typed character until one is taken, Escape, or the focus goes elsewhere. */
function useOffers({ text, offers, unit, onText }: Props): OffersNow {
  const [isOpen, setIsOpen] = useState(false);
  const [chosen, choose] = useState(-1);
  const show = (open: boolean) => {
    setIsOpen(open);
    choose(-1);
  };
  return {
    offered: isOpen ? suggestStock(text, offers, unit) : [],
    chosen,
    choose,
    close: () => show(false),
    type(next) {
      onText(next);
      show(true);
    },
    take(suggestion) {
      onText(suggestion.text);
      show(false);
    },
  };
}

function pressInEntry(event: KeyboardEvent, props: Props, offers: OffersNow): void {
  const { text } = props;
  const act = entryKey(event, { offered: offers.offered.length, chosen: offers.chosen, isEmpty: text === '' });
  if (act === null) {
    // While there is text, undo is the field's own.
    if (text !== '' && (event.ctrlKey || event.metaKey) && event.key.toLowerCase() === 'z') event.stopPropagation();
    return;
  }
  event.preventDefault();
  switch (act.kind) {
    case 'choose':
      offers.choose(act.at);
      break;
    case 'primary':
      props.onPrimary(act.by);
      break;
    case 'up':
      props.onUp();
      break;
    case 'escape':
      if (offers.offered.length > 0) offers.close();
      else props.onEscape();
      break;
    case 'enter':
      enterOrTake(props, offers);
      break;
    default:
      assertNever(act);
  }
}

function enterOrTake(props: Props, offers: OffersNow): void {
  const pick = offers.offered[offers.chosen];
  if (pick !== undefined) {
    offers.take(pick);
    return;
  }
  offers.close();
  props.onEnter();
}

function Offers({ id, offered, chosen, take }: OffersNow & { readonly id: string }) {
  return (
    <div id={`${id}-list`} className="entry-offers" role="listbox" aria-label="On the shelf" tabIndex={-1}>
      {offered.map((suggestion, index) => (
        // biome-ignore lint/a11y/useKeyWithClickEvents: the field handles the keys of its list
        <div
          key={suggestion.label}
          id={`${id}-${index}`}
          role="option"
          tabIndex={-1}
          aria-selected={index === chosen}
          className="entry-offer"
          onPointerDown={(event) => event.preventDefault()}
          onClick={() => take(suggestion)}
        >
          {suggestion.label} <span className="muted">{suggestion.where}</span>
        </div>
      ))}
    </div>
  );
}

type EntryAct =
  | { readonly kind: 'choose'; readonly at: number }
  | { readonly kind: 'primary'; readonly by: -1 | 1 }
  | { readonly kind: 'up' }
  | { readonly kind: 'escape' }
  | { readonly kind: 'enter' };

interface EntryNow {
  readonly offered: number;
  /** Place in the offers; -1 for none. */
  readonly chosen: number;
  readonly isEmpty: boolean;
}

/** Meaning of a key in the entry line; null: the field's own. */
export function entryKey(
  press: Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey'>,
  { offered, chosen, isEmpty }: EntryNow,
): EntryAct | null {
  const withCtrl = press.ctrlKey || press.metaKey;
  switch (press.key) {
    case 'Enter':
      return { kind: 'enter' };
    case 'Escape':
      return { kind: 'escape' };
    case 'PageUp':
    case 'PageDown':
      return { kind: 'primary', by: press.key === 'PageUp' ? -1 : 1 };
    case 'ArrowDown':
      if (withCtrl) return { kind: 'primary', by: 1 };
      return offered > 0 ? { kind: 'choose', at: Math.min(offered - 1, chosen + 1) } : null;
    case 'ArrowUp':
      if (withCtrl) return { kind: 'primary', by: -1 };
      if (offered > 0) return { kind: 'choose', at: Math.max(-1, chosen - 1) };
      return isEmpty ? { kind: 'up' } : null;
    default:
      return null;
  }
}
