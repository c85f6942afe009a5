/** Two headers with the cut plans that were carried out for them, read for a comparison. */

import { useEffect, useState } from 'react';
import type { HeaderAndPlans } from '../../../core/index.ts';
import { useAsk } from '../../host/host-bridge.ts';

export type Compared =
  | { readonly kind: 'reading' }
  | { readonly kind: 'read'; readonly one: HeaderAndPlans; readonly other: HeaderAndPlans }
  | { readonly kind: 'failed'; readonly words: string };

const GONE =
  'One of the two headers is not there any more, or is too damaged to be read. Choose another in the archive.';

export function useCompared(oneId: string, otherId: string): Compared {
  const ask = useAsk();
  const [compared, setCompared] = useState<Compared>({ kind: 'reading' });
  useEffect(() => {
    let isWanted = true;
    const plansOf = async (headerId: string) => {
      const answer = await ask('listCutPlans', { headerId });
      return answer.ok ? answer.value.plans.map(({ kept }) => kept) : [];
    };
    const read = async (): Promise<Compared> => {
      const answer = await ask('lookAtHeaders', { headerIds: [oneId, otherId] });
      if (!answer.ok) return { kind: 'failed', words: answer.words };
      const find = (id: string) => answer.value.headers.find((header) => header.id === id);
      const [one, other] = [find(oneId), find(otherId)];
      if (one === undefined || other === undefined) return { kind: 'failed', words: GONE };
      return {
        kind: 'read',
        one: { header: one, plans: await plansOf(oneId) },
        other: { header: other, plans: await plansOf(otherId) },
      };
    };
    void read().then((now) => {
      if (isWanted) setCompared(now);
    });
    return () => {
      isWanted = false;
    };
  }, [ask, oneId, otherId]);
  return compared;
}
