/** The search that answers a question about moves; runs in the worker, and in tests without one. */

import { assertNever, HeaderMoveSearch, MoveSearch, ProposalSearch } from '../../../core/index.ts';
import type { MovesAnswer, MovesQuestion } from './moves-question.ts';

export interface AnswerSearch {
  /** Looks on until it is through or the time is up, which is asked every millisecond or so. True: it is through. */
  readonly look: (isTimeUp: () => boolean) => boolean;
  /** What was found until now. */
  readonly soFar: () => MovesAnswer;
}

export function searchFor(question: MovesQuestion): AnswerSearch {
  switch (question.kind) {
    case 'primary': {
      const search = new MoveSearch(question.header, question.primaryId, question.options);
      return {
        look: (isTimeUp) => search.look(isTimeUp),
        soFar: () => ({ kind: 'primary', outcome: search.soFar() }),
      };
    }
    case 'header': {
      const search = new HeaderMoveSearch(question.header, question.options);
      return {
        look: (isTimeUp) => search.look(isTimeUp),
        soFar: () => ({ kind: 'header', outcome: search.soFar() }),
      };
    }
    case 'whole': {
      const search = new ProposalSearch(question.header, question.primaryId, question.options);
      return {
        look: (isTimeUp) => search.look(isTimeUp),
        soFar: () => ({ kind: 'whole', outcome: search.soFar() }),
      };
    }
    default:
      return assertNever(question);
  }
}

export function answerQuestion(question: MovesQuestion): MovesAnswer {
  const search = searchFor(question);
  search.look(() => false);
  return search.soFar();
}
