/** The cut plan of the header in hand: which planned piece comes out of which stock, where to put the saw, and the plans that were sawn. */

import { useState } from 'react';
import { SAW_AT_FIRST, sawOf, type TypedSaw } from '../../core/index.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { useForeignChanges, useSession } from '../session/use-session.ts';
import { Button } from '../ui/button.tsx';
import { writeScreen } from '../ui/screen.ts';
import { MadePlanView } from './made-plan-view.tsx';
import { progressWords } from './plan-verdict.ts';
import { SawFields } from './saw-fields.tsx';
import { SawnPlans, SawnPlanView } from './sawn-plans.tsx';
import { useCutPlan } from './use-cut-plan.ts';
import { useSawnPlans } from './use-sawn-plans.ts';
import './cutplan.css';

interface Props {
  readonly session: HeaderSession;
  /** Null until the shop has said how it saws. */
  readonly saw: TypedSaw | null;
  readonly onSaw: (saw: TypedSaw) => void;
}

export function CutPlanScreen({ session, saw: keptSaw, onSaw }: Props) {
  const header = useSession(session, (state) => state.header);
  const saw = keptSaw ?? SAW_AT_FIRST;
  useForeignChanges(session);
  const planner = useCutPlan(header, sawOf(saw));
  const sawn = useSawnPlans(session);
  /** The step of a plan that was sawn; null: what is still to cut. */
  const [shown, setShown] = useState<number | null>(null);
  const shownPlan = sawn.plans.find(({ step }) => step === shown) ?? null;
  const planAgain = () => planner.plan(session.getState().header, sawOf(saw));
  const setSaw = (next: TypedSaw) => {
    onSaw(next);
    planner.plan(header, sawOf(next));
  };
  const { planning } = planner;
  return (
    <main className="page cut-plan" id="screen" aria-busy={planning.kind === 'planning'}>
      <div className="page-head">
        <h1>Cut plan</h1>
        <span className="print-only">{header.name}</span>
        <div className="actions screen-only">
          {planning.kind === 'planning' ? (
            <Button onPress={planner.stop}>Stop</Button>
          ) : (
            <Button onPress={planAgain}>Plan again</Button>
          )}
          <Button onPress={() => window.print()}>Print</Button>
          <a href={writeScreen({ kind: 'bench', headerId: session.headerId })}>Back to the bench</a>
        </div>
      </div>
      {sawn.plans.length === 0 ? null : <SawnPlans plans={sawn.plans} shown={shown} onShow={setShown} />}
      {shownPlan !== null ? (
        <SawnPlanView
          key={shownPlan.step}
          {...{ session, sawn: shownPlan }}
          style={header.settings.display}
          takeBack={async () => {
            if (!(await sawn.takeBack(shownPlan.step))) return;
            setShown(null);
            planAgain();
          }}
        />
      ) : (
        <>
          <div className="screen-only">
            <SawFields saw={saw} style={header.settings.display} onSet={setSaw} />
          </div>
          {planning.kind === 'planning' ? <p role="status">{progressWords(planning.progress)}</p> : null}
          {planning.kind === 'failed' ? <p role="alert">{planning.words}</p> : null}
          {planning.kind === 'planned' ? (
            <MadePlanView
              key={planning.id}
              {...{ session, header, made: planning.made }}
              carryOut={async () => {
                const step = await sawn.carryOut(planning.made);
                if (step === null) return;
                setShown(step);
                planAgain();
              }}
            />
          ) : null}
        </>
      )}
    </main>
  );
}
