/** How an end misses its inlet, in words: core's own. */

export { closedWords, closureWords } from '../../../core/index.ts';
