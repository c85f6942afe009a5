/** The latest requests that make or change something without steps, so that one sent again does it once. */

import type Database from 'better-sqlite3';
import type * as z from 'zod';
import { failure, type Problem, type Result } from '../../core/index.ts';
import { sealed, textChecksum } from './rows/checksums.ts';
import { cellOf, intactRow } from './rows/read-row.ts';

/** Older ones are forgotten: no page waits through so many others for an answer. */
const KEPT = 1000;

interface RequestRow {
  readonly place: number;
  readonly id: string;
  /** Checksum of all that was asked. */
  readonly asked: number;
  readonly answer: string;
  readonly checksum: number;
}

export function requestTable(db: Database.Database) {
  const find = db.prepare<[string], RequestRow>('SELECT * FROM requests WHERE id = ?');
  const nextPlace = db.prepare<[], number>('SELECT coalesce(max(place), 0) + 1 FROM requests').pluck();
  const put = db.prepare('INSERT INTO requests VALUES (@place, @id, @asked, @answer, @checksum)');
  const forget = db.prepare('DELETE FROM requests WHERE place <= ?');
  return {
    /**
     * Runs `act`, or answers as it did when the same request came before. In a transaction: what was done and that it was
     * done are on disk together, so it does not matter whether the first answer got through. An id that was used for
     * something else is refused.
     */
    once<Answer>(
      request: { readonly requestId: string },
      answers: z.ZodType<Answer>,
      act: () => Result<Answer, Problem>,
    ): Result<Answer, Problem> {
      const { requestId } = request;
      const asked = textChecksum(JSON.stringify(request));
      const found = find.get(requestId);
      if (found) {
        if (intactRow('requests', found).asked !== asked)
          return failure({ kind: 'invalidRequest', call: 'sent again', detail: `request ${requestId} was another` });
        return { ok: true, value: cellOf(answers, found.answer, `the answer to request ${requestId}`) };
      }
      const done = act();
      if (!done.ok) return done;
      const place = nextPlace.get() ?? 1;
      put.run(sealed('requests', { place, id: requestId, asked, answer: JSON.stringify(done.value) }));
      forget.run(place - KEPT);
      return done;
    },
  };
}
