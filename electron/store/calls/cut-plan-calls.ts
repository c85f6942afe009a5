/** The calls about cut plans that are carried out, and about those that were. */

import type { Handlers } from '../../bridge/dispatcher.ts';
import { carryOutPlan } from '../cut-plans/carry-out-plan.ts';
import type { CallContext } from './call-context.ts';
import { shelfStepOnce } from './shelf-step-once.ts';

export function cutPlanCalls({ connection, clock }: CallContext) {
  const stepOnce = shelfStepOnce({ connection, clock });
  return {
    carryOutCutPlan: (request) => stepOnce(request, (tables, made) => carryOutPlan(tables, request, made)),
    listCutPlans: ({ headerId }) =>
      connection.read(({ cutPlans }) => ({
        plans: cutPlans
          .standing(headerId)
          .map(({ step, madeAt, kept }) => ({ step, madeAt: new Date(madeAt).toISOString(), kept })),
      })),
  } satisfies Partial<Handlers>;
}
