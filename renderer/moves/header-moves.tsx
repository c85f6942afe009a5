/** Moves for all primaries that are short or long at once, and whether moving the target is cheaper. */

import { useMemo } from 'react';
import { FigureText } from '../ui/figure-text.tsx';
import { askedOptions } from './move-settings.ts';
import type { MovesProps } from './moves-props.ts';
import { ProposalTable } from './proposals/proposal-table.tsx';
import { cheaperSentence, noPlansWords, planProposals } from './proposals/proposals.ts';
import type { MovesQuestion } from './search/moves-question.ts';
import { SearchState } from './search/search-state.tsx';
import { answeredIn, useMoves } from './search/use-moves.ts';
import { useStockLeft } from './use-stock-left.ts';

export function HeaderMoves(props: MovesProps) {
  const { header, report, bench, onApply } = props;
  const changing = useMemo(
    () =>
      report.primaries
        .filter(({ verdict }) => verdict !== null && verdict !== 'inBand')
        .map(({ primaryId }) => primaryId),
    [report],
  );
  const stock = useStockLeft(props, changing);
  const question = useMemo(
    (): MovesQuestion => ({
      kind: 'header',
      header,
      options: askedOptions(bench.settings, stock, bench.prices),
      budgetMs: bench.settings.budgetMs,
    }),
    [header, bench.settings, bench.prices, stock],
  );
  const moves = useMoves(question);
  const { search } = moves;
  const { rankBy } = bench.prices;
  const answered = answeredIn(search);
  const outcome = answered?.answer.kind === 'header' ? answered.answer.outcome : null;
  const proposals = useMemo(
    () => (outcome?.kind === 'found' ? planProposals(outcome, header, report, rankBy) : []),
    [outcome, header, report, rankBy],
  );
  const cheaper = outcome?.kind === 'found' ? cheaperSentence(outcome, header, rankBy) : null;
  return (
    <div className="moves-found" data-took-ms={search.kind === 'answered' ? Math.round(search.tookMs) : undefined}>
      <SearchState moves={moves} />
      {outcome?.kind === 'none' ? (
        <p role="status" className="moves-reason">
          {noPlansWords(outcome.reason)}
        </p>
      ) : null}
      {cheaper === null ? null : (
        <p role="status" className="moves-standing">
          <FigureText text={cheaper} />
        </p>
      )}
      {proposals.length === 0 ? null : (
        <ProposalTable
          label="Plans for all primaries"
          proposals={proposals}
          chosenKey={bench.chosen?.key ?? null}
          onChoose={bench.choose}
          onApply={onApply}
          onFlip={bench.flip}
        />
      )}
    </div>
  );
}
