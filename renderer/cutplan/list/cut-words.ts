/** Where the saw goes, what comes off and what is written on it, in words: core's own, which the build sheet has as well. */

export { giftWords, kerfWords, markWords, stockRowWords as rowWords, writeOnWords } from '../../../core/index.ts';
