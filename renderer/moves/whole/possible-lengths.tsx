/** Which lengths the primary in hand can have at all, looked for once they are asked for; one of them can be made the target. */

import { useMemo, useState } from 'react';
import { describeNoProposal, formatLength, lengthIn, setSettingsEdit, unitOf } from '../../../core/index.ts';
import { FigureText } from '../../ui/figure-text.tsx';
import { primaryTitle } from '../../ui/words/verdict-words.ts';
import { proposeOptions } from '../move-settings.ts';
import type { MovesProps } from '../moves-props.ts';
import type { MovesQuestion } from '../search/moves-question.ts';
import { SearchState } from '../search/search-state.tsx';
import { answeredIn, useMoves } from '../search/use-moves.ts';
import { ReachChart } from './reach-chart.tsx';
import type { KnownLength } from './reach-layout.ts';
import { reachSentences } from './reach-words.ts';

export function PossibleLengths(props: MovesProps) {
  const [isOpen, setIsOpen] = useState(false);
  return (
    <details className="reach" open={isOpen} onToggle={(event) => setIsOpen(event.currentTarget.open)}>
      <summary>Possible lengths</summary>
      {isOpen ? <Lengths {...props} /> : null}
    </details>
  );
}

function Lengths({ session, header, report, primary, stock, bench }: MovesProps) {
  const { settings } = bench;
  const style = header.settings.display;
  const question = useMemo(
    (): MovesQuestion => ({
      kind: 'reach',
      header,
      primaryId: primary.id,
      options: proposeOptions(settings, stock),
      budgetMs: settings.budgetMs,
    }),
    [header, primary.id, settings, stock],
  );
  // The proposals are looked for at the same time.
  const moves = useMoves(question, 'beside');
  const answered = answeredIn(moves.search);
  const outcome = answered?.answer.kind === 'reach' ? answered.answer.outcome : null;
  const others = useMemo(
    () =>
      report.primaries.flatMap(({ primaryId, lengthMm, building }, index): readonly KnownLength[] =>
        primaryId === primary.id || building !== null || lengthMm <= 0
          ? []
          : [{ primaryId, label: String(index + 1), lengthMm }],
      ),
    [report, primary.id],
  );
  const take = (mm: number) => {
    session.apply(setSettingsEdit({ target: { kind: 'typed', length: lengthIn(mm, unitOf(style)) } }));
  };
  return (
    <>
      <SearchState moves={moves} />
      {outcome?.kind === 'none' ? (
        <p role="status">
          <FigureText text={describeNoProposal(outcome.reason, style)} />
        </p>
      ) : null}
      {outcome?.kind === 'found' ? (
        <>
          <ReachChart reach={outcome.reach} targetMm={report.targetMm} others={others} style={style} onTake={take} />
          {reachSentences(outcome.reach, style).map((sentence) => (
            <p key={sentence}>
              <FigureText text={sentence} />
            </p>
          ))}
          <p className="muted">
            <FigureText
              text={`${standingWords(report.targetMm, style)} Tap a length, or go to it with the arrows and press Enter, to make it the target.`}
            />
          </p>
          <p className="visually-hidden">
            {others
              .map(({ label, lengthMm }) => `${primaryTitle(label)} is ${formatLength(lengthMm, style)}.`)
              .join(' ')}
          </p>
        </>
      ) : null}
    </>
  );
}

function standingWords(targetMm: number | null, style: MovesProps['header']['settings']['display']): string {
  return targetMm === null
    ? 'There is no target yet.'
    : `The target is ${formatLength(targetMm, style)}, the upright line.`;
}
