/** Moves to choose from, one a row, the least work first: going to one previews it, Enter applies it, Space shows before. */

import { type KeyboardEvent, useRef } from 'react';
import { FigureText } from '../../ui/figure-text.tsx';
import { verdictMark } from '../../ui/words/verdict-words.ts';
import { TubePictureView } from '../whole/tube-picture.tsx';
import { COLUMNS, type Column, type Proposal, type ProposalCell } from './proposal.ts';

const HEADS: Readonly<Record<Column, string>> = {
  result: 'Result',
  price: 'Price',
  bends: 'New bends',
  joints: 'Joints',
  cuts: 'Cuts',
  tube: 'Tube',
  end: 'End',
  clearance: 'Clearance',
  shelf: 'Shelf',
};

interface Props {
  readonly label: string;
  readonly proposals: readonly Proposal[];
  readonly chosenKey: string | null;
  /** Null takes the choice back. */
  readonly onChoose: (proposal: Proposal | null) => void;
  readonly onApply: (proposal: Proposal) => void;
  /** From how it would be to how it is now, and back. */
  readonly onFlip: () => void;
}

export function ProposalTable({ label, proposals, chosenKey, onChoose, onApply, onFlip }: Props) {
  const table = useRef<HTMLTableElement>(null);
  const isPriced = proposals.some(({ moves }) => moves.some(({ cost }) => cost.price !== null));
  const columns = COLUMNS.filter((column) => column !== 'price' || isPriced);
  const at = proposals.findIndex(({ key }) => key === chosenKey);
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const chosen = proposals[at];
    const to = rowAfter(event.key, at, proposals.length);
    if (to !== null) table.current?.querySelectorAll<HTMLElement>('.proposal')[to]?.focus();
    else if (event.key === 'Enter' && chosen !== undefined) onApply(chosen);
    else if (event.key === ' ' && chosen !== undefined) onFlip();
    else if (event.key === 'Escape' && chosen !== undefined) onChoose(null);
    else return;
    // Escape takes back the choice first, and only then closes what the table stands in.
    event.stopPropagation();
    event.preventDefault();
  };
  return (
    <table
      ref={table}
      className="proposals"
      data-priced={isPriced || undefined}
      // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: the grid pattern of the W3C APG allows a table
      role="grid"
      aria-label={label}
      aria-readonly="true"
      onKeyDown={onKeyDown}
    >
      <thead>
        <tr className="proposal-heads">
          <th scope="col" className="proposal-do-head">
            Do
          </th>
          {columns.map((column) => (
            <th key={column} scope="col" data-column={column}>
              {HEADS[column]}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {proposals.map((proposal, index) => (
          <ProposalRow
            key={proposal.key}
            proposal={proposal}
            columns={columns}
            isChosen={index === at}
            isTabStop={index === Math.max(0, at)}
            onChoose={() => onChoose(proposal)}
          />
        ))}
      </tbody>
    </table>
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
  readonly columns: readonly Column[];
  readonly isChosen: boolean;
  readonly isTabStop: boolean;
  readonly onChoose: () => void;
}

function ProposalRow({ proposal, columns, isChosen, isTabStop, onChoose }: RowProps) {
  return (
    <tr
      className="proposal"
      aria-selected={isChosen}
      tabIndex={isTabStop ? 0 : -1}
      onFocus={onChoose}
      onClick={onChoose}
    >
      <td className="proposal-do">
        {proposal.picture ? <TubePictureView picture={proposal.picture} /> : null}
        <p className="proposal-said">
          <FigureText text={proposal.said} />
        </p>
        {proposal.lines.map((line) => (
          <p key={line} className="proposal-line">
            <FigureText text={line} />
          </p>
        ))}
      </td>
      {columns.map((column) => (
        <Cell key={column} column={column} cell={proposal.cells[column]} />
      ))}
    </tr>
  );
}

function Cell({ column, cell: { text, verdict } }: { readonly column: Column; readonly cell: ProposalCell }) {
  return (
    <td className="proposal-cell" data-column={column} data-verdict={verdict}>
      {verdict === undefined ? null : (
        <span className="verdict-mark" aria-hidden="true">
          {verdictMark(verdict).mark}{' '}
        </span>
      )}
      <FigureText text={text} />
    </td>
  );
}
