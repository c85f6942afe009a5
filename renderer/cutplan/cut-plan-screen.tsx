/** The cut plan of the header in hand: which planned piece comes out of which stock, and where to put the saw. */

import { useMemo, useState } from 'react';
import { cutProblemOf, type Header } from '../../core/index.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { useForeignChanges, useSession } from '../session/use-session.ts';
import { Button } from '../ui/button.tsx';
import { FigureText } from '../ui/figure-text.tsx';
import { writeScreen } from '../ui/screen.ts';
import { CutList } from './cut-list.tsx';
import { placedPieces } from './plan-pieces.ts';
import { coverWords, figureSentences, progressWords, proofSentence } from './plan-verdict.ts';
import { SawFields } from './saw-fields.tsx';
import { type KeptSaw, SAW_AT_FIRST, sawOf } from './saw-settings.ts';
import { shortageRows } from './shortage-rows.ts';
import { Shortages } from './shortages.tsx';
import { type CutPlanner, type MadePlan, useCutPlan } from './use-cut-plan.ts';
import './cutplan.css';

interface Props {
  readonly session: HeaderSession;
  /** Null until the shop has said how it saws. */
  readonly saw: KeptSaw | null;
  readonly onSaw: (saw: KeptSaw) => void;
}

export function CutPlanScreen({ session, saw: keptSaw, onSaw }: Props) {
  const header = useSession(session, (state) => state.header);
  const saw = keptSaw ?? SAW_AT_FIRST;
  useForeignChanges(session);
  const planner = useCutPlan(header, sawOf(saw));
  const { planning } = planner;
  const setSaw = (next: KeptSaw) => {
    onSaw(next);
    planner.plan(header, sawOf(next));
  };
  return (
    <main className="page cut-plan" id="screen" aria-busy={planning.kind === 'planning'}>
      <div className="page-head">
        <h1>Cut plan</h1>
        <div className="actions">
          {planning.kind === 'planning' ? (
            <Button onPress={planner.stop}>Stop</Button>
          ) : (
            <Button look="main" onPress={() => planner.plan(header, sawOf(saw))}>
              Plan again
            </Button>
          )}
          <a href={writeScreen({ kind: 'bench', headerId: session.headerId })}>Back to the bench</a>
        </div>
      </div>
      <SawFields saw={saw} style={header.settings.display} onSet={setSaw} />
      <Planned planning={planning} header={header} />
    </main>
  );
}

function Planned({ planning, header }: Pick<CutPlanner, 'planning'> & { readonly header: Header }) {
  switch (planning.kind) {
    case 'planning':
      return <p role="status">{progressWords(planning.progress)}</p>;
    case 'failed':
      return <p role="alert">{planning.words}</p>;
    case 'planned':
      return <Made made={planning.made} header={header} />;
  }
}

/** Whether the header wants other pieces now than when it was planned. */
function isStale({ header: then, problem }: MadePlan, now: Header): boolean {
  if (then === now) return false;
  const { pieces, joints } = cutProblemOf([now], [], problem.saw);
  return JSON.stringify([pieces, joints]) !== JSON.stringify([problem.pieces, problem.joints]);
}

function Made({ made, header }: { readonly made: MadePlan; readonly header: Header }) {
  const { problem, plan, stock } = made;
  const style = header.settings.display;
  const pieces = useMemo(() => placedPieces(made.header), [made.header]);
  const short = useMemo(() => shortageRows(made.header, pieces, plan.short), [made.header, pieces, plan.short]);
  const [chosen, setChosen] = useState<{ readonly item: string; readonly step: number } | null>(null);
  if (problem.pieces.length === 0) return <NothingPlanned />;
  return (
    <>
      {isStale(made, header) ? <p role="alert">The header has changed since. Plan again before you cut.</p> : null}
      {problem.stock.some(({ count }) => count > 0) ? null : <EmptyShelf />}
      <section aria-label="Verdict" className="cut-verdict">
        <p className="cut-cover" role="status">
          {coverWords(made)}
        </p>
        <p>
          <FigureText text={[...figureSentences({ problem, stock, plan }), proofSentence(plan, style)].join(' ')} />
        </p>
      </section>
      <Shortages rows={short} name={made.header.name} style={style} />
      <CutList {...{ made, pieces, style, chosen }} onChoose={setChosen} />
    </>
  );
}

function NothingPlanned() {
  return (
    <p className="prose">
      No piece is planned. Only planned pieces are cut: what is marked cut, tacked or welded has its tube already. Enter
      pieces on the bench, or mark one planned there, and plan again.
    </p>
  );
}

function EmptyShelf() {
  return (
    <p className="prose">
      The shelf is empty, so there is nothing to cut from. Enter what lies on your <a href="#/shelf">Shelf</a>, or order
      by the list below.
    </p>
  );
}
