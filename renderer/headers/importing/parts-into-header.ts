/** The primaries of a parts list as one step on the open header. */

import type { BatchEdit, Header, Primary } from '../../../core/index.ts';
import { countOf } from '../../ui/words/spoken.ts';

/**
 * The names that the primaries of a list get in a header, in the list's order: their own where it is free, else the
 * least whole number that neither the header nor the list uses.
 */
export function namesInHeader(header: Header, primaries: readonly Pick<Primary, 'name'>[]): readonly string[] {
  const taken = new Set(header.primaries.map(({ name }) => name));
  const wanted = new Set(primaries.map(({ name }) => name));
  const named: string[] = [];
  for (const { name } of primaries) {
    let free = name;
    for (let number = 1; taken.has(free); number += 1) {
      if (!wanted.has(String(number))) free = String(number);
    }
    taken.add(free);
    named.push(free);
  }
  return named;
}

/** All primaries of the list after those of the header, under new ids: one step, taken back by one undo. */
export function addPartsEdit(header: Header, primaries: readonly Primary[], newId: () => string): BatchEdit {
  const names = namesInHeader(header, primaries);
  return {
    kind: 'batch',
    label: `add ${countOf(primaries.length, 'primary', 'primaries')} of a parts list`,
    edits: primaries.map((primary, index) => ({
      kind: 'addPrimary',
      at: header.primaries.length + index,
      primary: {
        ...primary,
        id: newId(),
        name: names[index] ?? primary.name,
        // Places of whatever header the list came from mean nothing in this one.
        port: null,
        inletId: null,
        pieces: primary.pieces.map((piece) => ({ ...piece, id: newId() })),
      },
    })),
  };
}
