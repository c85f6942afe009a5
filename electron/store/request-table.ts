/** The latest requests that make or change something without steps, so that one sent again does it once. */

import type Database from 'better-sqlite3';
import type * as z from 'zod';
import { failure, type Problem, type Result, success } from '../../core/index.ts';
import { isIntact, readCell, rowTable, textChecksum } from './rows/row-table.ts';

/** Older ones are forgotten: no page waits through so many others for an answer. */
const KEPT = 1000;

export function requestTable(db: Database.Database) {
  const rows = rowTable(db, 'requests', ['id']);
  const nextPlace = db.prepare<[], number>('SELECT coalesce(max(place), 0) + 1 FROM requests').pluck();
  const forget = db.prepare('DELETE FROM requests WHERE place <= ?');
  return {
    /**
     * Runs `act`, or answers as it did when the same request came before. In a transaction: what was done and that it was
     * done are on disk together, so it does not matter whether the first answer got through. An id that was used for
     * something else, or for what can no longer be told, is refused.
     */
    once<Answer>(
      request: { readonly requestId: string },
      answers: z.ZodType<Answer>,
      act: () => Result<Answer, Problem>,
    ): Result<Answer, Problem> {
      const { requestId } = request;
      const asked = textChecksum(JSON.stringify(request));
      const found = rows.find(requestId);
      if (found) {
        const isSame = isIntact('requests', found) && found.asked === asked;
        const answer = isSame ? readCell(answers, found.answer) : null;
        const detail = `request ${requestId} was another, or is damaged`;
        return answer === null ? failure({ kind: 'invalidRequest', call: 'sent again', detail }) : success(answer);
      }
      const done = act();
      if (!done.ok) return done;
      const place = nextPlace.get() ?? 1;
      rows.insert({ place, id: requestId, asked, answer: JSON.stringify(done.value) });
      forget.run(place - KEPT);
      return done;
    },
  };
}
