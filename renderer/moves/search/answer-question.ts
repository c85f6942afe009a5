/** The search that answers a question about moves; runs in the worker, and in tests without one. */

import { assertNever, HeaderMoveSearch, MoveSearch } from '../../../core/index.ts';
import type { MovesAnswer, MovesQuestion } from './moves-question.ts';

export interface AnswerSearch {
  /** Looks on until it is through or the time is up, which is asked every millisecond or so. The answer once through, else null. */
  readonly look: (isTimeUp: () => boolean) => MovesAnswer | null;
}

export function searchFor(question: MovesQuestion): AnswerSearch {
  switch (question.kind) {
    case 'primary': {
      const search = new MoveSearch(question.header, question.primaryId, question.options);
      return { look: (isTimeUp) => (search.look(isTimeUp) ? { kind: 'primary', outcome: search.soFar() } : null) };
    }
    case 'header': {
      const search = new HeaderMoveSearch(question.header, question.options);
      return {
        look: (isTimeUp) => (search.look(isTimeUp) ? { kind: 'header', outcome: search.soFar() } : null),
      };
    }
    default:
      return assertNever(question);
  }
}

export function answerQuestion(question: MovesQuestion): MovesAnswer {
  const search = searchFor(question);
  for (;;) {
    const answer = search.look(() => false);
    if (answer !== null) return answer;
  }
}
