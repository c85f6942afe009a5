/** The thread that looks for moves: one question, one answer. It is ended from outside when a newer question comes. */

import { answerQuestion } from './answer-question.ts';
import type { AnswerMessage, AskedMessage } from './moves-question.ts';

self.addEventListener('message', ({ data }: MessageEvent<AskedMessage>) => {
  const message: AnswerMessage = { number: data.number, answer: answerQuestion(data.question) };
  self.postMessage(message);
});
