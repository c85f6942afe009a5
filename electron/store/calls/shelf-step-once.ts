/** One step of the stock book for a request, however often it is sent. */

import { failure, type Problem, type Result, success } from '../../../core/index.ts';
import { contract, type RequestOf, type ResponseOf } from '../../bridge/contract.ts';
import type { ReadOnly } from '../../bridge/dispatcher.ts';
import type { StepMade, Written } from '../shelf/shelf.ts';
import type { Tables } from '../tables.ts';
import type { CallContext } from './call-context.ts';

/** As many as a list of stock may have that is read from a file: what is exported can be read back in one go. */
const MOST_ITEMS = 25_000;
/** Rows that a step may have touched and still be answered with. */
const ANSWERED = 100;

type Answer = ReadOnly<ResponseOf<'changeShelf'>>;
type OnceRequest = RequestOf<'changeShelf' | 'turnShelfBack' | 'carryOutCutPlan'>;

type Act = (tables: Tables, made: StepMade) => Result<Written, Problem>;

export function shelfStepOnce({ connection, clock }: Pick<CallContext, 'connection' | 'clock'>) {
  return (request: OnceRequest, act: Act): Result<Answer, Problem> =>
    connection.use((tables) => {
      const { shelf, requests, inTransaction } = tables;
      return inTransaction(() =>
        requests.once<Answer>(request, contract.changeShelf.response, () => {
          const most = Math.max(shelf.list().length, MOST_ITEMS);
          const written = act(tables, { requestId: request.requestId, at: clock() });
          if (!written.ok) return written;
          if (shelf.list().length > most) return failure({ kind: 'tooMany', path: ['shelf'], limit: MOST_ITEMS });
          return success(answerOf(written.value));
        }),
      );
    });
}

function answerOf({ step, stock, gone }: Written): Answer {
  return stock.length + gone.length > ANSWERED ? { step, stock: null, gone: [] } : { step, stock, gone };
}
