/** Ids for pieces that a move lets in. */

import type { MoveProblem } from '../problem/move-problem.ts';

/** The caller's own ids, or else the first of `let-in-1`, `let-in-2` ... that the header does not have. */
export function freshIds({ header, options }: Pick<MoveProblem, 'header' | 'options'>): () => string {
  if (options.newId !== undefined) return options.newId;
  const taken = new Set<string>([header.id]);
  for (const primary of header.primaries) {
    taken.add(primary.id);
    for (const { id } of primary.pieces) taken.add(id);
  }
  for (const collector of header.collectors) {
    taken.add(collector.id);
    for (const { id } of collector.inlets) taken.add(id);
  }
  for (const { id } of header.obstacles) taken.add(id);
  let count = 0;
  return () => {
    do count += 1;
    while (taken.has(`let-in-${count}`));
    return `let-in-${count}`;
  };
}
