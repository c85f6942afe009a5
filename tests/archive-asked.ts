/** What the archive is asked, for tests to say only what matters to them. */

import type { RequestOf } from '../electron/bridge/contract.ts';

/** Every finished header, the last finished first. */
export const EVERYTHING: RequestOf<'searchArchive'> = {
  words: '',
  material: '',
  odMm: null,
  primaryCount: null,
  targetMm: null,
  spreadMm: null,
  finishedAt: null,
  likeId: null,
  from: 0,
  most: 100,
};
