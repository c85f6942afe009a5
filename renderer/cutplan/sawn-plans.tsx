/** Plans that were carried out: which there are, and the cut list of one of them with the way to take it back. */

import { useMemo } from 'react';
import type { LengthStyle } from '../../core/index.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { takesNoSteps } from '../session/session-state.ts';
import { useSession } from '../session/use-session.ts';
import { Button } from '../ui/button.tsx';
import { useOneAtATime } from '../ui/hooks/use-one-at-a-time.ts';
import { countOf, showTime } from '../ui/words/spoken.ts';
import { CutList } from './list/cut-list.tsx';
import { byId } from './list/plan-pieces.ts';
import { useChosenCut } from './list/use-chosen-cut.ts';
import type { SawnPlan } from './use-sawn-plans.ts';

interface ChoiceProps {
  readonly plans: readonly SawnPlan[];
  readonly shown: number | null;
  readonly onShow: (step: number | null) => void;
}

export function SawnPlans({ plans, shown, onShow }: ChoiceProps) {
  return (
    <fieldset className="cut-plans screen-only" aria-label="Which plan">
      <PlanButton words="Still to cut" isShown={shown === null} onShow={() => onShow(null)} />
      {plans.map((plan) => (
        <PlanButton
          key={plan.step}
          words={sawnWords(plan)}
          isShown={shown === plan.step}
          onShow={() => onShow(plan.step)}
        />
      ))}
    </fieldset>
  );
}

interface ButtonProps {
  readonly words: string;
  readonly isShown: boolean;
  readonly onShow: () => void;
}

function PlanButton({ words, isShown, onShow }: ButtonProps) {
  return (
    <button type="button" className="cut-choose" aria-pressed={isShown} onClick={onShow}>
      {words}
    </button>
  );
}

/** `Cut 29 Nov 2026, 14:05: 12 pieces`. */
function sawnWords({ madeAt, kept }: SawnPlan): string {
  const { pieces } = kept.problem;
  return `Cut ${showTime(madeAt)}: ${countOf(pieces.length - kept.plan.short.length, 'piece')}`;
}

interface ViewProps {
  readonly session: HeaderSession;
  readonly sawn: SawnPlan;
  readonly style: LengthStyle;
  readonly takeBack: () => Promise<void>;
}

export function SawnPlanView({ session, sawn, style, takeBack }: ViewProps) {
  const { kept } = sawn;
  const pieces = useMemo(() => byId(kept.pieces), [kept.pieces]);
  const isFrozen = useSession(session, takesNoSteps);
  const [chosen, choose] = useChosenCut(session, kept);
  const [isAtWork, takeBackOnce] = useOneAtATime(takeBack);
  return (
    <>
      <section aria-label="What was cut" className="cut-verdict">
        <p className="cut-cover">{`${sawnWords(sawn)} from ${countOf(kept.plan.opened.length, 'stock item')}.`}</p>
        {isFrozen ? null : (
          <div className="cut-carry-out screen-only">
            <Button onPress={takeBackOnce} isDisabled={isAtWork}>
              Take back
            </Button>
            <p className="muted">
              Puts the stock back on the shelf and marks the pieces planned again, of all headers that were cut
              together, as one step.
            </p>
          </div>
        )}
      </section>
      <CutList {...{ made: kept, pieces, style, chosen }} onChoose={choose} />
    </>
  );
}
