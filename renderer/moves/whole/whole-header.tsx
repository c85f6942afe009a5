/** All primaries that are empty or half built, proposed at once: the question, how far the search has come, and the answer. */

import { useMemo, useState } from 'react';
import {
  describeNoHeader,
  describeProgress,
  formatLength,
  type Header,
  type HeaderProposal,
  type MatchReport,
} from '../../../core/index.ts';
import { Button } from '../../ui/button.tsx';
import { ChoiceField } from '../../ui/fields/choice-field.tsx';
import { FigureText } from '../../ui/figure-text.tsx';
import { proposeOptions } from '../move-settings.ts';
import type { MovesProps } from '../moves-props.ts';
import { ProposalTable } from '../proposals/proposal-table.tsx';
import type { MovesQuestion } from '../search/moves-question.ts';
import { SearchState } from '../search/search-state.tsx';
import { answeredIn, useMoves } from '../search/use-moves.ts';
import { headerProposal, headerRows } from './header-proposals.ts';

type Aim = 'own' | 'best';
type Inlets = 'free' | 'asTheyAre';

const INLET_CHOICES = [
  { id: 'free', name: 'Any of its collector' },
  { id: 'asTheyAre', name: 'As assigned' },
] as const;

type HeaderQuestion = Extract<MovesQuestion, { readonly kind: 'wholeHeader' }>;

export function WholeHeader(props: MovesProps) {
  const { header, report, stock, bench } = props;
  const [aim, setAim] = useState<Aim>('own');
  const [inlets, setInlets] = useState<Inlets>('free');
  const [question, setQuestion] = useState<HeaderQuestion | null>(null);
  const ask = () => {
    const options = { ...proposeOptions(bench.settings, stock), inlets, target: aim };
    bench.choose(null);
    setQuestion({ kind: 'wholeHeader', header, options, budgetMs: bench.settings.budgetMs });
  };
  return (
    <div className="moves-found">
      <p>
        Proposes every primary that has a port, an inlet and something left to build: all at one length, clear of each
        other. What is tacked, welded or locked stays; what is only planned or cut is replaced.
      </p>
      <div className="move-options">
        <ChoiceField label="Length" choices={aimChoices(header, report)} chosen={aim} onChoose={setAim} />
        <ChoiceField label="Inlets" choices={INLET_CHOICES} chosen={inlets} onChoose={setInlets} />
        <Button onPress={ask}>Propose all</Button>
      </div>
      {question?.header === header ? <Answer {...props} question={question} /> : null}
    </div>
  );
}

function aimChoices({ settings }: Header, { targetMm }: MatchReport) {
  const target =
    targetMm === null ? 'The header\u2019s target' : `The target, ${formatLength(targetMm, settings.display)}`;
  return [
    { id: 'own', name: target },
    { id: 'best', name: 'Fewest bends' },
  ] as const;
}

/** A newer question, or a header that has changed since, ends the search. */
function Answer({ header, bench, onApply, question }: MovesProps & { readonly question: HeaderQuestion }) {
  const moves = useMoves(question);
  const { search } = moves;
  const answer = answeredIn(search)?.answer;
  const found = answer?.kind === 'wholeHeader' ? answer : null;
  const outcome = found?.outcome ?? null;
  const proposed = outcome?.kind === 'found' ? outcome.proposal : null;
  const proposals = useMemo(() => (proposed === null ? [] : [headerProposal(proposed, header)]), [proposed, header]);
  const isLooking = search.kind === 'begun' || search.kind === 'looking';
  return (
    <>
      <SearchState moves={moves} />
      {isLooking && found !== null ? (
        <p className="muted">
          <FigureText text={`${describeProgress(found.progress, header)}.`} />
        </p>
      ) : null}
      {outcome?.kind === 'none' && !isLooking ? (
        <p role="status" className="moves-reason">
          <FigureText text={describeNoHeader(outcome.reason, header)} />
        </p>
      ) : null}
      {proposed === null ? null : (
        <>
          <ProposalTable
            label="Proposal for the whole header"
            proposals={proposals}
            chosenKey={bench.chosen?.key ?? null}
            onChoose={bench.choose}
            onApply={onApply}
            onFlip={bench.flip}
          />
          <Rows proposed={proposed} header={header} />
        </>
      )}
    </>
  );
}

function Rows({ proposed, header }: { readonly proposed: HeaderProposal; readonly header: Header }) {
  return (
    <section
      className="whole-rows"
      aria-label="Each primary of the proposal"
      // biome-ignore lint/a11y/noNoninteractiveTabindex: in a narrow panel it is scrolled aside with the arrow keys
      tabIndex={0}
    >
      <table>
        <thead>
          <tr>
            {['Primary', 'Inlet', 'Length', 'Bends', 'Cuts', 'End', 'Clearance'].map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {headerRows(proposed, header).map(({ primaryId, title, ...cells }) => (
            <tr key={primaryId}>
              <th scope="row">{title}</th>
              <td>{cells.inlet}</td>
              <td>
                <FigureText text={cells.length} />
              </td>
              <td>{cells.bends}</td>
              <td>{cells.cuts}</td>
              <td>
                <FigureText text={cells.end} />
              </td>
              <td>
                <FigureText text={cells.clearance} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
