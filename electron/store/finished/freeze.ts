/** What finishing writes down: the record of a header in the archive, from that moment on refused any change by the database itself. */

import type { Header } from '../../../core/index.ts';
import { figuresOf } from '../archive/archive.ts';
import { jointsOfJournal } from '../archive/joints-of-journal.ts';
import { factsOf } from '../pictures/picture-table.ts';
import type { Tables } from '../tables.ts';
import { sealOf } from './record.ts';

/** In the transaction of the step that finishes it. */
export function freeze(tables: Tables, header: Header, finishedAt: Date): void {
  const { archive, cutPlans, pictures } = tables;
  const figures = figuresOf(header, { finishedAt, jointsOpened: jointsOpenedIn(tables, header.id) });
  const plans = cutPlans
    .standing(header.id)
    .map(({ madeAt, kept }) => ({ madeAt: new Date(madeAt).toISOString(), kept }));
  const facts = pictures.rowsOf(header.id).map(factsOf);
  archive.add(header.id, { figures, plans }, sealOf({ header, figures, plans, pictures: facts }));
}

function jointsOpenedIn({ journal, snapshots }: Tables, headerId: string): number | null {
  const first = snapshots.oldest(headerId);
  return first === null ? null : jointsOfJournal(journal, first);
}
