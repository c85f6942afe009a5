/** The calls about stock: what lies on the shelf, steps that change it, why a count is what it is, and the list as a file. */

import { csvText, failure, isOfSize, type Problem, type Result, stockRows, success } from '../../../core/index.ts';
import { contract, type RequestOf, type ResponseOf } from '../../bridge/contract.ts';
import type { Handlers, ReadOnly } from '../../bridge/dispatcher.ts';
import { carryOutPlan } from '../cut-plans/carry-out-plan.ts';
import { turnShelfBack } from '../cut-plans/turn-plan.ts';
import type { Standing } from '../header/standing.ts';
import type { ExplainedMovement } from '../shelf/movement-table.ts';
import type { StepMade, Written } from '../shelf/shelf.ts';
import type { Tables } from '../tables.ts';
import type { CallContext } from './call-context.ts';

/** As many as a list of stock may have that is read from a file: what is exported can be read back in one go. */
const MOST_ITEMS = 25_000;
/** Rows that a step may have touched and still be answered with. */
const ANSWERED = 100;

type Answer = ReadOnly<ResponseOf<'changeShelf'>>;
type OnceRequest = RequestOf<'changeShelf' | 'turnShelfBack' | 'carryOutCutPlan'>;

interface Acted {
  readonly written: Written;
  /** Of the header that changed with the shelf; null: none did. */
  readonly standing: Standing | null;
}

export function shelfCalls({ connection, host, clock }: CallContext) {
  /** Once for a request, however often it is sent; a header that changed with the shelf is remembered once both are committed. */
  const stepOnce = (request: OnceRequest, act: (tables: Tables, made: StepMade) => Result<Acted, Problem>) =>
    connection.use((tables) => {
      const { shelf, requests, standings, inTransaction } = tables;
      let standing: Standing | null = null;
      const answer = inTransaction(() =>
        requests.once<Answer>(request, contract.changeShelf.response, () => {
          const most = Math.max(shelf.list().length, MOST_ITEMS);
          const acted = act(tables, { requestId: request.requestId, at: clock() });
          if (!acted.ok) return acted;
          if (shelf.list().length > most) return failure({ kind: 'tooMany', path: ['shelf'], limit: MOST_ITEMS });
          standing = acted.value.standing;
          return success(answerOf(acted.value.written));
        }),
      );
      if (answer.ok && standing !== null) standings.set(standing);
      return answer;
    });
  return {
    listStock: ({ sizes }) =>
      connection.read(({ shelf }) => {
        const stock = shelf.list();
        const wanted = sizes && stock.filter(({ item }) => sizes.some((size) => isOfSize(item, size)));
        return { stock: wanted ?? stock, history: shelf.history() };
      }),
    changeShelf: (request) =>
      stepOnce(request, ({ shelf }, made) => {
        const written = shelf.commit(request.changes, request.because, made);
        return written.ok ? success({ written: written.value, standing: null }) : written;
      }),
    turnShelfBack: (request) => stepOnce(request, (tables, made) => turnShelfBack(tables, request, made)),
    carryOutCutPlan: (request) => stepOnce(request, (tables, made) => carryOutPlan(tables, request, made)),
    listCutPlans: ({ headerId }) =>
      connection.read(({ cutPlans }) => ({
        plans: cutPlans
          .standing(headerId)
          .map(({ step, madeAt, kept }) => ({ step, madeAt: new Date(madeAt).toISOString(), kept })),
      })),
    readShelfHistory: () => connection.read(({ shelf }) => shelf.history()),
    readMovements: ({ itemId }) =>
      connection.read(({ shelf }) => ({ movements: explanation(shelf.movementsOf(itemId), shelf.countOf(itemId)) })),
    async exportStock() {
      const items = connection.read(({ shelf }) => shelf.list().map(({ item }) => item));
      if (!items.ok) return items;
      return success(await host.saveFile('stock.csv', 'text/csv', csvText(stockRows(items.value))));
    },
  } satisfies Partial<Handlers>;
}

function answerOf({ step, stock, gone }: Written): Answer {
  return stock.length + gone.length > ANSWERED ? { step, stock: null, gone: [] } : { step, stock, gone };
}

/** From the count as it is backwards; movements come with the latest first. */
function explanation(movements: readonly ExplainedMovement[], count: number): ResponseOf<'readMovements'>['movements'] {
  let left = count;
  return movements.map(({ movement: { pieces, reason, moved_at }, label }) => {
    const after = left;
    left -= pieces;
    return { pieces, reason, movedAt: new Date(moved_at).toISOString(), label, left: after };
  });
}
