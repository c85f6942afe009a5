/** A plan that is still to be sawn: its verdict, the way to carry it out, what is short, and its cut list. */

import { useMemo } from 'react';
import { cutProblemOf, type Header } from '../../core/index.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { takesNoSteps } from '../session/session-state.ts';
import { useSession } from '../session/use-session.ts';
import { Button } from '../ui/button.tsx';
import { FigureText } from '../ui/figure-text.tsx';
import { useOneAtATime } from '../ui/hooks/use-one-at-a-time.ts';
import { CutList } from './list/cut-list.tsx';
import { byId } from './list/plan-pieces.ts';
import { useChosenCut } from './list/use-chosen-cut.ts';
import { orderRows, orderWords } from './order-rows.ts';
import { coverWords, figureSentences, proofSentence, whatSawingDoes } from './plan-verdict.ts';
import { Shortages } from './shortages.tsx';
import type { MadePlan } from './use-cut-plan.ts';

interface Props {
  readonly session: HeaderSession;
  readonly header: Header;
  readonly made: MadePlan;
  readonly carryOut: () => Promise<void>;
}

/** Whether the header wants other pieces now than when it was planned. */
function isStale({ headers: [then, ...others], problem }: MadePlan, now: Header): boolean {
  if (then === now) return false;
  const { pieces, joints } = cutProblemOf([now, ...others], [], problem.saw);
  return JSON.stringify([pieces, joints]) !== JSON.stringify([problem.pieces, problem.joints]);
}

export function MadePlanView({ session, header, made, carryOut }: Props) {
  const { problem, plan } = made;
  const style = header.settings.display;
  const isFrozen = useSession(session, takesNoSteps);
  const pieces = useMemo(() => byId(made.pieces), [made.pieces]);
  const order = useMemo(() => orderRows(made, pieces), [made, pieces]);
  const [chosen, choose] = useChosenCut(session, made);
  const [isAtWork, carryOutOnce] = useOneAtATime(carryOut);
  const stale = useMemo(() => isStale(made, header), [made, header]);
  if (problem.pieces.length === 0) return <NothingPlanned />;
  return (
    <>
      {stale ? <p role="alert">The header has changed since. Plan again before you cut.</p> : null}
      {made.stock.some(({ count }) => count > 0) ? null : <EmptyShelf />}
      <section aria-label="Verdict" className="cut-verdict">
        <p className="cut-cover" role="status">
          {coverWords(made)}
        </p>
        <p>
          <FigureText text={[...figureSentences(made), proofSentence(plan, style)].join(' ')} />
        </p>
        {plan.opened.length === 0 || isFrozen ? null : (
          <div className="cut-carry-out screen-only">
            <Button look="main" onPress={carryOutOnce} isDisabled={stale || isAtWork}>
              Mark as cut
            </Button>
            <p className="muted">{whatSawingDoes(made)}</p>
          </div>
        )}
      </section>
      <Shortages rows={order} words={orderWords(order, made.order)} name={header.name} />
      <CutList {...{ made, pieces, style, chosen }} onChoose={choose} />
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
