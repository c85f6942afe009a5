/** The search that answers a question about moves; runs in the worker, and in tests without one. */

import {
  assertNever,
  HeaderMoveSearch,
  HeaderProposalSearch,
  MoveSearch,
  ProposalSearch,
  ReachSearch,
} from '../../../core/index.ts';
import type { MovesAnswer, MovesQuestion } from './moves-question.ts';

export interface AnswerSearch {
  /** Looks on until it is through or the time is up, which is asked every millisecond or so. True: it is through. */
  readonly look: (isTimeUp: () => boolean) => boolean;
  /** Left before it is through, makes ready what was found until now, asking as `look` does. True: it is ready. */
  readonly windUp: (isTimeUp: () => boolean) => boolean;
  /** What was found until now. */
  readonly soFar: () => MovesAnswer;
  /** Rises whenever there is something new to show before it is through. */
  readonly news: () => number;
}

interface Sliced<Outcome> {
  readonly look: (isTimeUp: () => boolean) => boolean;
  readonly windUp: (isTimeUp: () => boolean) => boolean;
  readonly soFar: () => Outcome;
  readonly news: number;
}

export function searchFor(question: MovesQuestion): AnswerSearch {
  switch (question.kind) {
    case 'primary': {
      const search = new MoveSearch(question.header, question.primaryId, question.options);
      return answering(search, (outcome) => ({ kind: 'primary', outcome }));
    }
    case 'header': {
      const search = new HeaderMoveSearch(question.header, question.options);
      return answering(search, (outcome) => ({ kind: 'header', outcome }));
    }
    case 'whole': {
      const search = new ProposalSearch(question.header, question.primaryId, question.options);
      return answering(search, (outcome) => ({ kind: 'whole', outcome }));
    }
    case 'reach': {
      const search = new ReachSearch(question.header, question.primaryId, question.options);
      return answering(search, (outcome) => ({ kind: 'reach', outcome }));
    }
    case 'wholeHeader': {
      const search = new HeaderProposalSearch(question.header, question.options);
      return answering(search, (outcome) => ({ kind: 'wholeHeader', outcome, progress: search.progress }));
    }
    default:
      return assertNever(question);
  }
}

function answering<Outcome>(search: Sliced<Outcome>, answer: (outcome: Outcome) => MovesAnswer): AnswerSearch {
  return {
    look: (isTimeUp) => search.look(isTimeUp),
    windUp: (isTimeUp) => search.windUp(isTimeUp),
    soFar: () => answer(search.soFar()),
    news: () => search.news,
  };
}

export function answerQuestion(question: MovesQuestion): MovesAnswer {
  const search = searchFor(question);
  search.look(() => false);
  return search.soFar();
}
