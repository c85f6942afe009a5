/** The cut plan of the header in hand: which planned piece comes out of which stock, where to put the saw, and the plans that were sawn. */

import { useState } from 'react';
import { type Header, SAW_AT_FIRST, sawOf, type TypedSaw } from '../../core/index.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { useForeignChanges, useSession } from '../session/use-session.ts';
import { Button } from '../ui/button.tsx';
import { writeScreen } from '../ui/screen.ts';
import { MadePlanView } from './made-plan-view.tsx';
import { progressWords } from './plan-verdict.ts';
import { SawFields } from './saw-fields.tsx';
import { SawnPlans, SawnPlanView } from './sawn-plans.tsx';
import { TogetherWith } from './together-with.tsx';
import { type AskedPlan, type CutPlanner, type MadePlan, useCutPlan } from './use-cut-plan.ts';
import { useOtherHeaders } from './use-other-headers.ts';
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
  const others = useOtherHeaders(session.headerId);
  const [otherIds, setOtherIds] = useState<readonly string[]>([]);
  const planner = useCutPlan({ header, otherIds, saw: sawOf(saw) });
  const sawn = useSawnPlans(session);
  /** The step of a plan that was sawn; null: what is still to cut. */
  const [shown, setShown] = useState<number | null>(null);
  const shownPlan = sawn.plans.find(({ step }) => step === shown) ?? null;
  const planAgain = (change: Partial<AskedPlan> = {}) =>
    planner.plan({ header: session.getState().header, otherIds, saw: sawOf(saw), ...change });
  const { planning } = planner;
  const takeBack = async (step: number) => {
    if (!(await sawn.takeBack(step))) return;
    setShown(null);
    planAgain();
  };
  const carryOut = async (made: MadePlan) => {
    const step = await sawn.carryOut(made);
    if (step === null) return;
    setShown(step);
    planAgain();
  };
  const setSaw = (next: TypedSaw) => {
    onSaw(next);
    planAgain({ saw: sawOf(next) });
  };
  return (
    <main className="page cut-plan" id="screen" aria-busy={planning.kind === 'planning'}>
      <Head planner={planner} header={header} planAgain={() => planAgain()} />
      {sawn.plans.length === 0 ? null : <SawnPlans plans={sawn.plans} shown={shown} onShow={setShown} />}
      {shownPlan === null ? (
        <>
          <div className="screen-only">
            <SawFields saw={saw} style={header.settings.display} onSet={setSaw} />
          </div>
          <TogetherWith
            others={others}
            chosen={otherIds}
            onChoose={(chosen) => {
              setOtherIds(chosen);
              planAgain({ otherIds: chosen });
            }}
          />
          <StillToCut {...{ session, header, planning, carryOut }} />
        </>
      ) : (
        <SawnPlanView
          key={shownPlan.step}
          {...{ session, sawn: shownPlan }}
          style={header.settings.display}
          takeBack={() => takeBack(shownPlan.step)}
        />
      )}
    </main>
  );
}

interface HeadProps {
  readonly planner: CutPlanner;
  readonly header: Header;
  readonly planAgain: () => void;
}

function Head({ planner, header, planAgain }: HeadProps) {
  return (
    <div className="page-head">
      <h1>Cut plan</h1>
      <span className="print-only">{header.name}</span>
      <div className="actions screen-only">
        {planner.planning.kind === 'planning' ? (
          <Button onPress={planner.stop}>Stop</Button>
        ) : (
          <Button onPress={planAgain}>Plan again</Button>
        )}
        <Button onPress={() => window.print()}>Print</Button>
        <a href={writeScreen({ kind: 'bench', headerId: header.id })}>Back to the bench</a>
      </div>
    </div>
  );
}

interface StillProps extends Pick<Props, 'session'>, Pick<CutPlanner, 'planning'> {
  readonly header: Header;
  readonly carryOut: (made: MadePlan) => Promise<void>;
}

function StillToCut({ session, header, planning, carryOut }: StillProps) {
  switch (planning.kind) {
    case 'planning':
      return <p role="status">{progressWords(planning.progress)}</p>;
    case 'failed':
      return <p role="alert">{planning.words}</p>;
    case 'planned': {
      const { made } = planning;
      return <MadePlanView key={planning.id} {...{ session, header, made }} carryOut={() => carryOut(made)} />;
    }
  }
}
