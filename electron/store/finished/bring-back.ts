/** Brings a finished header that was read from a file into the database, as it was finished and under the same checksum. */

import { keepHeader } from '../header/keep-header.ts';
import { damageIn } from '../header/opened-header.ts';
import type { Tables } from '../tables.ts';
import type { FinishedLine } from './line.ts';

export interface Brought {
  /** `asAnother`: another header has its id here, so it got one of its own. */
  readonly kind: 'brought' | 'broughtAsAnother' | 'alreadyThere' | 'inBin';
  readonly headerId: string;
}

/**
 * In a transaction of whoever calls. One with the same checksum that is here and sound is the same header, and nothing is done; where
 * the one that is here was altered since, the sound one comes in beside it.
 */
export function bringBack(tables: Tables, line: FinishedLine, newId: () => string): Brought {
  const there = tables.archive.withSeal(line.seal).find((id) => damageIn(tables, id) === null);
  if (there !== undefined) return { kind: tables.headers.isInBin(there) ? 'inBin' : 'alreadyThere', headerId: there };
  const isTaken = tables.headers.has(line.id);
  const headerId = isTaken ? newId() : line.id;
  const { record, seal, files } = line;
  const { figures, plans, pictures } = record;
  keepHeader(tables, { ...record.header, id: headerId }, { stepId: newId(), changedAt: new Date(figures.finishedAt) });
  for (const [at, { sha256: _, ...picture }] of pictures.entries())
    tables.pictures.add(headerId, { id: newId(), ...picture }, files[at] ?? new Uint8Array());
  tables.archive.add(headerId, { figures, plans }, seal);
  return { kind: isTaken ? 'broughtAsAnother' : 'brought', headerId };
}
