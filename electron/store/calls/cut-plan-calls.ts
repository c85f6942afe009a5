/** The calls about cut plans that are carried out, and about those that were. */

import type { Handlers } from '../../bridge/dispatcher.ts';
import { frozenIn } from '../archive/archive.ts';
import { carryOutPlan } from '../cut-plans/carry-out-plan.ts';
import type { CallContext } from './call-context.ts';
import { shelfStepOnce } from './shelf-step-once.ts';

export function cutPlanCalls({ connection, clock }: CallContext) {
  const stepOnce = shelfStepOnce({ connection, clock });
  return {
    carryOutCutPlan: (request) => stepOnce(request, (tables, made) => carryOutPlan(tables, request, made)),
    listCutPlans: ({ headerId }) =>
      connection.read(({ archive, cutPlans }) => {
        const row = archive.find(headerId);
        const frozen = row === null ? null : frozenIn(row);
        if (frozen) return { plans: frozen.plans.map((plan, at) => ({ step: at + 1, ...plan })) };
        const standing = cutPlans.standing(headerId);
        return { plans: standing.map((plan) => ({ ...plan, madeAt: new Date(plan.madeAt).toISOString() })) };
      }),
  } satisfies Partial<Handlers>;
}
