/** What finishing writes down: the record of a header in the archive, from that moment on refused any change by the database itself. */

import type { Header } from '../../../core/index.ts';
import { figuresOf } from '../archive/archive.ts';
import { factsOf } from '../pictures/picture-table.ts';
import type { Tables } from '../tables.ts';
import { sealOf } from './record.ts';

/** In the transaction of the step that finishes it. */
export function freeze({ archive, cutPlans, pictures }: Tables, header: Header, finishedAt: Date): void {
  const figures = figuresOf(header, finishedAt.toISOString());
  const plans = cutPlans
    .standing(header.id)
    .map(({ madeAt, kept }) => ({ madeAt: new Date(madeAt).toISOString(), kept }));
  const record = { header, figures, plans, pictures: pictures.rowsOf(header.id).map(factsOf) };
  archive.add(header.id, { figures, plans, seal: sealOf(record) });
}
