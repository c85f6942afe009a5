/** What is wrong with a header on disk, as marks on paper need it. */

import type { Problem } from '../../../core/index.ts';

/** `altered`: it is not what was finished; `damaged`: its last steps are missing. */
export function faultOf({ kind }: Problem): 'altered' | 'damaged' {
  return kind === 'alteredHeader' ? 'altered' : 'damaged';
}
