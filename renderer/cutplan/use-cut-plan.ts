/** Plans the cuts of a header: reads the shelf, asks for the plan, and tells how far it is. */

import { useCallback, useEffect, useRef, useState } from 'react';
import {
  type CutPlan,
  type CutProblem,
  cutProblemOf,
  type Header,
  type KeptPlan,
  type KnownStock,
  orderProblem,
  type PlanProgress,
  placedPieces,
  type SawSettings,
  stockOfPieces,
} from '../../core/index.ts';
import type { RequestOf } from '../../electron/bridge/contract.ts';
import { useAsk } from '../host/host-bridge.ts';
import { oneAtATime } from '../host/one-at-a-time.ts';
import { freshId } from '../ui/random-id.ts';

type Ask = ReturnType<typeof useAsk>;

/** A plan with all that it was made from: header and shelf may have gone on since. */
export interface MadePlan extends KeptPlan {
  /** The header in hand first. */
  readonly headers: readonly Header[];
  /** Of the others, in their order: to which the plan was made. */
  readonly otherRevisions: readonly number[];
  /** The whole shelf, with the revisions of its rows. */
  readonly known: readonly KnownStock[];
  /** How what is short would be covered at the least cost by what can be ordered; null: nothing is short, or it is not known yet. */
  readonly order: { readonly problem: CutProblem; readonly plan: CutPlan } | null;
}

export type Planning =
  | { readonly kind: 'planning'; readonly progress: PlanProgress | null }
  | { readonly kind: 'planned'; readonly id: string; readonly made: MadePlan }
  | { readonly kind: 'failed'; readonly words: string };

/** A header of forty pieces takes a second or two; past this the best so far is of more use than the proof. */
const LIMIT_SECONDS = 60;
/** The list is of use before it is proven. */
const ORDER_LIMIT_SECONDS = 10;
const LOOK_EVERY_MS = 300;

/** What is to be planned. */
export interface AskedPlan {
  readonly header: Header;
  /** Ids of headers that are cut together with it. */
  readonly otherIds: readonly string[];
  readonly saw: SawSettings;
}

export interface CutPlanner {
  readonly planning: Planning;
  readonly plan: (asked: AskedPlan) => void;
  /** Ends the search; the best so far is then the plan. */
  readonly stop: () => void;
}

/** What is given first is planned at once. */
export function useCutPlan(atFirst: AskedPlan): CutPlanner {
  const ask = useAsk();
  const [planning, setPlanning] = useState<Planning>({ kind: 'planning', progress: null });
  const [first] = useState(atFirst);
  /** The plan that is asked for; null: none is. */
  const wanted = useRef<string | null>(null);
  const plan = useCallback(
    (asked: AskedPlan) => {
      const planId = freshId();
      // A search that nobody waits for any more would only hold this one up.
      if (wanted.current !== null) void ask('stopCutPlan', { planId: wanted.current });
      wanted.current = planId;
      setPlanning({ kind: 'planning', progress: null });
      const isWanted = () => wanted.current === planId;
      void madePlan(ask, asked, planId).then(async (end) => {
        if (!isWanted()) return;
        // The cut list can be worked from while it is looked for what to order.
        setPlanning(end);
        if (end.kind !== 'planned') return;
        const order = await cheapestOrder(ask, end.made);
        if (isWanted() && order !== null) setPlanning({ ...end, made: { ...end.made, order } });
      });
    },
    [ask],
  );
  const stop = useCallback(() => {
    if (wanted.current !== null) void ask('stopCutPlan', { planId: wanted.current });
  }, [ask]);
  useEffect(() => {
    plan(first);
    return () => {
      stop();
      wanted.current = null;
    };
  }, [plan, stop, first]);
  useEffect(() => {
    if (planning.kind !== 'planning') return;
    const look = oneAtATime(async () => {
      const planId = wanted.current;
      if (planId === null) return;
      const answer = await ask('readCutPlan', { planId });
      if (!answer.ok || wanted.current !== planId) return;
      const { progress } = answer.value;
      setPlanning((now) => (now.kind === 'planning' ? { kind: 'planning', progress } : now));
    });
    const timer = setInterval(look, LOOK_EVERY_MS);
    return () => clearInterval(timer);
  }, [ask, planning.kind]);
  return { planning, plan, stop };
}

async function madePlan(ask: Ask, { header, otherIds, saw }: AskedPlan, planId: string): Promise<Planning> {
  const others = await readHeaders(ask, otherIds);
  if (!others.ok) return { kind: 'failed', words: others.words };
  const headers = [header, ...others.read.map((one) => one.header)];
  const shelf = await ask('listStock', {});
  if (!shelf.ok) return { kind: 'failed', words: shelf.words };
  const known = shelf.value.stock;
  const stock = known.map(({ item }) => item);
  const problem = cutProblemOf(headers, stock, saw);
  const answer = await ask('planCuts', { planId, problem: asked(problem), limitSeconds: LIMIT_SECONDS });
  if (!answer.ok) return { kind: 'failed', words: answer.words };
  const { plan } = answer.value;
  const otherRevisions = others.read.map(({ revision }) => revision);
  const pieces = placedPieces(headers);
  const made = { headers, otherRevisions, known, stock, pieces, problem, plan, order: null };
  return { kind: 'planned', id: planId, made };
}

interface ReadHeader {
  readonly header: Header;
  readonly revision: number;
}

/** The revision is read first: a header that changes in between is then at a later one, and the plan is refused when it is carried out. */
async function readHeaders(
  ask: Ask,
  headerIds: readonly string[],
): Promise<
  { readonly ok: true; readonly read: readonly ReadHeader[] } | { readonly ok: false; readonly words: string }
> {
  const read: ReadHeader[] = [];
  for (const headerId of headerIds) {
    const now = await ask('readRevision', { headerId });
    if (!now.ok) return now;
    const looked = await ask('lookAtHeaders', { headerIds: [headerId] });
    if (!looked.ok) return looked;
    const [header] = looked.value.headers;
    if (header !== undefined) read.push({ header, revision: now.value.revision });
  }
  return { ok: true, read };
}

/** Null where nothing is short, a plan was stopped, or there is no answer: then net sizes are all there is to order by. */
async function cheapestOrder(
  ask: Ask,
  { problem, plan, stock }: Pick<MadePlan, 'problem' | 'plan' | 'stock'>,
): Promise<MadePlan['order']> {
  if (plan.short.length === 0 || plan.ended === 'stopped') return null;
  const wanted = orderProblem(problem, plan.short, stock);
  const asking = { planId: freshId(), problem: asked(wanted), limitSeconds: ORDER_LIMIT_SECONDS };
  const answer = await ask('planCuts', asking);
  return answer.ok ? { problem: wanted, plan: answer.value.plan } : null;
}

/** As it is sent: with the stock that a piece could come out of. */
function asked({ pieces, joints, stock, saw }: CutProblem): RequestOf<'planCuts'>['problem'] {
  const onHand = stockOfPieces({ pieces, stock }).map((row) =>
    row.kind === 'bend' ? { ...row, legsMm: [...row.legsMm] as [number, number] } : row,
  );
  return { pieces: [...pieces], joints: [...joints], stock: onHand, saw };
}
