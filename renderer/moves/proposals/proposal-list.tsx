/** Moves to choose from: going to one shows it, Enter applies it. */

import { type KeyboardEvent, useRef } from 'react';
import { FigureText } from '../../ui/figure-text.tsx';
import { verdictMark } from '../../ui/words/verdict-words.ts';
import type { Proposal, ProposalFigure } from './proposal.ts';

interface Props {
  readonly label: string;
  readonly proposals: readonly Proposal[];
  readonly chosenKey: string | null;
  /** Null takes the choice back. */
  readonly onChoose: (proposal: Proposal | null) => void;
  readonly onApply: (proposal: Proposal) => void;
}

export function ProposalList({ label, proposals, chosenKey, onChoose, onApply }: Props) {
  const list = useRef<HTMLDivElement>(null);
  const at = proposals.findIndex(({ key }) => key === chosenKey);
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const chosen = proposals[at];
    const to = rowAfter(event.key, at, proposals.length);
    if (to !== null) list.current?.querySelectorAll<HTMLElement>('[role="option"]')[to]?.focus();
    else if (event.key === 'Enter' && chosen !== undefined) onApply(chosen);
    else if (event.key === 'Escape' && chosen !== undefined) onChoose(null);
    else return;
    event.preventDefault();
  };
  return (
    <div ref={list} className="proposals" role="listbox" aria-label={label} tabIndex={-1} onKeyDown={onKeyDown}>
      {proposals.map((proposal, index) => (
        <ProposalRow
          key={proposal.key}
          proposal={proposal}
          isChosen={index === at}
          isTabStop={index === Math.max(0, at)}
          onChoose={() => onChoose(proposal)}
        />
      ))}
    </div>
  );
}

/** Null: not a key that moves. */
export function rowAfter(key: string, at: number, count: number): number | null {
  const within = (row: number) => Math.max(0, Math.min(count - 1, row));
  switch (key) {
    case 'ArrowDown':
      return within(at + 1);
    case 'ArrowUp':
      return within(at - 1);
    case 'Home':
      return 0;
    case 'End':
      return within(count - 1);
    default:
      return null;
  }
}

interface RowProps {
  readonly proposal: Proposal;
  readonly isChosen: boolean;
  readonly isTabStop: boolean;
  readonly onChoose: () => void;
}

function ProposalRow({ proposal, isChosen, isTabStop, onChoose }: RowProps) {
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: the list around it handles the keys of all rows
    <div
      className="proposal"
      role="option"
      aria-selected={isChosen}
      tabIndex={isTabStop ? 0 : -1}
      onFocus={onChoose}
      onClick={onChoose}
    >
      <p className="proposal-said">
        <FigureText text={proposal.said} />
      </p>
      {proposal.lines.map((line) => (
        <p key={line} className="proposal-line">
          <FigureText text={line} />
        </p>
      ))}
      <p className="proposal-figures">
        {proposal.figures.map((figure) => (
          <Figure key={figure.text} figure={figure} />
        ))}
      </p>
    </div>
  );
}

/** A comma that is heard but not seen keeps the figures apart where space does not. */
function Figure({ figure: { text, verdict } }: { readonly figure: ProposalFigure }) {
  return (
    <span className="proposal-figure" data-verdict={verdict}>
      {verdict === undefined ? null : (
        <span className="verdict-mark" aria-hidden="true">
          {verdictMark(verdict).mark}{' '}
        </span>
      )}
      <FigureText text={text} />
      <span className="visually-hidden">, </span>
    </span>
  );
}
