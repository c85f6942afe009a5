/** The header's cut plans that were carried out, for the cut list on its build sheet. */

import { useEffect, useState } from 'react';
import { useAsk } from '../host/host-bridge.ts';
import { useNotice } from '../ui/notices.tsx';
import type { Plans } from './sheet-choice.ts';

const NONE: Plans = [];

/** The oldest first; none until they are read, and none that cannot be, which is said. */
export function useKeptPlans(headerId: string): Plans {
  const ask = useAsk();
  const say = useNotice();
  const [plans, setPlans] = useState<Plans>(NONE);
  useEffect(() => {
    let isWanted = true;
    void ask('listCutPlans', { headerId }).then((answer) => {
      if (!isWanted) return;
      if (answer.ok) setPlans(answer.value.plans.map(({ kept }) => kept).toReversed());
      else say({ text: `The cut list is not on the sheet. ${answer.words}`, tone: 'trouble' });
    });
    return () => {
      isWanted = false;
    };
  }, [ask, say, headerId]);
  return plans;
}
