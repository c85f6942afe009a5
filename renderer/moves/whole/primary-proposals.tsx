/** Whole primaries for a port and an inlet, or the rest of one that is half built; or why there is none. */

import { useMemo } from 'react';
import { describeLengthRanges, describeNoProposal, type ProposalOutcome } from '../../../core/index.ts';
import { FigureText } from '../../ui/figure-text.tsx';
import { countOf } from '../../ui/words/spoken.ts';
import { primaryTitle } from '../../ui/words/verdict-words.ts';
import { proposeOptions } from '../move-settings.ts';
import type { MovesProps } from '../moves-props.ts';
import { ProposalTable } from '../proposals/proposal-table.tsx';
import type { MovesQuestion } from '../search/moves-question.ts';
import { SearchState } from '../search/search-state.tsx';
import { answeredIn, useMoves } from '../search/use-moves.ts';
import { PossibleLengths } from './possible-lengths.tsx';
import { wholeProposals } from './whole-proposals.ts';

export function PrimaryProposals(props: MovesProps) {
  const { header, primary, stock, bench } = props;
  const { settings } = bench;
  const question = useMemo(
    (): MovesQuestion => ({
      kind: 'whole',
      header,
      primaryId: primary.id,
      options: proposeOptions(settings, stock),
      budgetMs: settings.budgetMs,
    }),
    [header, primary.id, settings, stock],
  );
  const moves = useMoves(question);
  const answered = answeredIn(moves.search);
  const outcome = answered?.answer.kind === 'whole' ? answered.answer.outcome : null;
  return (
    <div className="moves-found">
      <SearchState moves={moves} />
      {outcome === null ? null : <Outcome {...props} outcome={outcome} />}
      <PossibleLengths {...props} />
    </div>
  );
}

function Outcome({ header, primary, bench, onApply, outcome }: MovesProps & { readonly outcome: ProposalOutcome }) {
  const style = header.settings.display;
  const title = primaryTitle(primary.name);
  const proposals = useMemo(
    () => (outcome.kind === 'found' ? wholeProposals(outcome.proposals, header) : []),
    [outcome, header],
  );
  if (outcome.kind === 'none') {
    const ranges = describeLengthRanges(outcome.nearest, style);
    return (
      <>
        <p role="status" className="moves-reason">
          <FigureText text={describeNoProposal(outcome.reason, style)} />
        </p>
        {ranges === '' ? null : (
          <p>
            <FigureText text={ranges} />
          </p>
        )}
      </>
    );
  }
  return (
    <>
      <p role="status" className="visually-hidden">
        {countOf(proposals.length, 'proposal')} for {title}, the fewest bends first.
      </p>
      <ProposalTable
        label={`Proposals for ${title}`}
        proposals={proposals}
        chosenKey={bench.chosen?.key ?? null}
        onChoose={bench.choose}
        onApply={onApply}
        onFlip={bench.flip}
      />
    </>
  );
}
