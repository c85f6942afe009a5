/** Answers a question about moves; runs in the worker, and in tests without one. */

import { assertNever, suggestHeaderMoves, suggestMoves } from '../../../core/index.ts';
import type { MovesAnswer, MovesQuestion } from './moves-question.ts';

export function answerQuestion(question: MovesQuestion): MovesAnswer {
  switch (question.kind) {
    case 'primary':
      return { kind: 'primary', outcome: suggestMoves(question.header, question.primaryId, question.options) };
    case 'header':
      return { kind: 'header', outcome: suggestHeaderMoves(question.header, question.options) };
    default:
      return assertNever(question);
  }
}
