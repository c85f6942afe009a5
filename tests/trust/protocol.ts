/** What an editing child tells its parent, one JSON object a line on standard output. */

import { writeSync } from 'node:fs';
import type { Problem } from '../../core/problem.ts';

/** `digest` is that of the whole document after the steps, as the child computed it itself. */
export type ChildLine =
  | { readonly kind: 'started' }
  | { readonly kind: 'opened'; readonly headerId: string; readonly revision: number; readonly digest: string }
  | { readonly kind: 'sent'; readonly stepIds: readonly string[]; readonly digest: string }
  | { readonly kind: 'acked'; readonly stepIds: readonly string[]; readonly revision: number }
  | { readonly kind: 'refused'; readonly call: string; readonly problems: readonly Problem[] }
  | { readonly kind: 'pragmas'; readonly values: Readonly<Record<string, unknown>> }
  | { readonly kind: 'done' };

/** Field of the draft that an editing child sends along with steps; its text is the id of the last of them. */
export const DRAFT_OF_STEP = 'id of the last step';

/** Writes at once and wholly, so that a line is out before the next call is made. */
export function tell(line: ChildLine): void {
  const bytes = Buffer.from(`${JSON.stringify(line)}\n`);
  let done = 0;
  while (done < bytes.length) {
    try {
      done += writeSync(1, bytes, done);
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EAGAIN') throw error;
    }
  }
}

/** The whole lines of a child's output; a last line cut off by its death is left out. */
export function readLines(output: string): readonly ChildLine[] {
  return output
    .slice(0, output.lastIndexOf('\n') + 1)
    .split('\n')
    .filter((line) => line.startsWith('{'))
    .map((line) => JSON.parse(line) as ChildLine);
}
