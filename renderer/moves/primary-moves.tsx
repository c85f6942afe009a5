/** Moves for the primary in hand, or why there is none and what would have to be let go. */

import { useMemo } from 'react';
import {
  describeNearest,
  describeNoMoves,
  describeStanding,
  describeToFree,
  describeWrongPiece,
  freeOffer,
  type MoveOutcome,
  type ToFree,
  wrongPieces,
} from '../../core/index.ts';
import { Button } from '../ui/button.tsx';
import { FigureText } from '../ui/figure-text.tsx';
import { countOf } from '../ui/words/spoken.ts';
import { primaryTitle } from '../ui/words/verdict-words.ts';
import { askedOptions } from './move-settings.ts';
import type { MovesProps } from './moves-props.ts';
import { ProposalTable } from './proposals/proposal-table.tsx';
import { moveProposals, movesOf } from './proposals/proposals.ts';
import type { MovesQuestion } from './search/moves-question.ts';
import { SearchState } from './search/search-state.tsx';
import { answeredIn, useMoves } from './search/use-moves.ts';
import { useStockLeft } from './use-stock-left.ts';

export function PrimaryMoves(props: MovesProps) {
  const { header, primary, bench } = props;
  const changing = useMemo(() => [primary.id], [primary.id]);
  const stock = useStockLeft(props, changing);
  const question = useMemo(
    (): MovesQuestion => ({
      kind: 'primary',
      header,
      primaryId: primary.id,
      options: askedOptions(bench.settings, stock, bench.prices),
      budgetMs: bench.settings.budgetMs,
    }),
    [header, primary.id, bench.settings, bench.prices, stock],
  );
  const moves = useMoves(question);
  const { search } = moves;
  const answered = answeredIn(search);
  const outcome = answered?.answer.kind === 'primary' ? answered.answer.outcome : null;
  return (
    <div className="moves-found" data-took-ms={search.kind === 'answered' ? Math.round(search.tookMs) : undefined}>
      <SearchState moves={moves} />
      {outcome === null ? null : <Outcome {...props} outcome={outcome} />}
    </div>
  );
}

function Outcome(props: MovesProps & { readonly outcome: MoveOutcome }) {
  const { header, primary, outcome, bench, onApply } = props;
  const style = header.settings.display;
  const { before } = outcome;
  const { rankBy } = bench.prices;
  const standing = before === null ? null : describeStanding(before, style);
  const proposals = useMemo(
    () => (before === null ? [] : moveProposals({ moves: movesOf(outcome), before }, header, rankBy)),
    [outcome, before, header, rankBy],
  );
  const title = primaryTitle(primary.name);
  const wrong = useMemo(
    () => (before?.isClosed === false ? wrongPieces(header, primary.id)[0] : undefined),
    [before, header, primary.id],
  );
  return (
    <>
      {standing === null ? null : (
        <p className="moves-standing">
          <FigureText text={standing} />
        </p>
      )}
      {wrong === undefined ? null : (
        <p className="moves-standing">
          <FigureText text={describeWrongPiece(wrong, style)} />
        </p>
      )}
      <p role="status" className={proposals.length === 0 ? 'moves-reason' : 'visually-hidden'}>
        {outcome.kind === 'none' ? (
          <FigureText text={describeNoMoves(outcome.reason, style)} />
        ) : (
          `${countOf(proposals.length, 'move')} for ${title}, ${rankBy === 'order' ? 'the least work first' : 'the lowest price first'}.`
        )}
      </p>
      {outcome.kind === 'none' ? <WhatToFree {...props} outcome={outcome} /> : null}
      {proposals.length === 0 ? null : (
        <ProposalTable
          label={`Moves for ${title}`}
          proposals={proposals}
          chosenKey={bench.chosen?.key ?? null}
          onChoose={bench.choose}
          onApply={onApply}
          onFlip={bench.flip}
        />
      )}
    </>
  );
}

type NoMoves = Extract<MoveOutcome, { readonly kind: 'none' }>;

function WhatToFree(props: MovesProps & { readonly outcome: NoMoves }) {
  const { header, outcome } = props;
  const { nearest, toFree, reason } = outcome;
  if (reason.kind === 'nothingToDo') return null;
  return (
    <>
      {nearest === null ? null : (
        <p>
          <FigureText text={describeNearest(nearest, header.settings.display)} />
        </p>
      )}
      {toFree === null ? null : (
        <>
          <p>{describeToFree(toFree)}</p>
          <FreeButtons {...props} toFree={toFree} />
        </>
      )}
    </>
  );
}

function FreeButtons({ session, primary, bench, outcome, toFree }: MovesProps & { outcome: NoMoves; toFree: ToFree }) {
  const offer = freeOffer(primary, toFree);
  const { reason } = outcome;
  return (
    <div className="actions">
      {offer === null ? null : <Button onPress={() => session.apply(offer.edit)}>{offer.name}</Button>}
      {reason.kind === 'tooManyJoints' ? (
        <Button onPress={() => bench.set({ mostJoints: reason.needed })}>
          Allow {countOf(reason.needed, 'joint')}
        </Button>
      ) : null}
    </div>
  );
}
