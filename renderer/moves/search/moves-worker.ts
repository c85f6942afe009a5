/** The thread that looks for moves. It hears a newer question, or a stop, between two slices of a search. */

import type { AskedMessage } from './moves-question.ts';
import { SlicedSearch } from './sliced-search.ts';

// A message to oneself comes after those that wait already, and unlike a timer it is not held back.
const bell = new MessageChannel();
let due: () => void = () => undefined;
bell.port1.onmessage = () => due();

const search = new SlicedSearch({
  post: (message) => self.postMessage(message),
  afterMail: (act) => {
    due = act;
    bell.port2.postMessage(null);
  },
  now: () => performance.now(),
});

self.addEventListener('message', ({ data }: MessageEvent<AskedMessage>) => search.hear(data));
