/** Whether a finished header is what was finished, to the last byte of its document, figures, plans and pictures. */

import type { Problem } from '../../../core/index.ts';
import { frozenIn } from '../archive/archive.ts';
import type { ReadHeader } from '../header/read-header.ts';
import { factsOf } from '../pictures/picture-table.ts';
import { isIntact } from '../rows/row-table.ts';
import type { Tables } from '../tables.ts';
import { canonicalJson, sealOf } from './record.ts';

type Read = Pick<ReadHeader, 'header' | 'revision'>;

/**
 * Null: it is. To be called in the transaction that read the header. Looks at every byte, so pictures take as long as reading them from the disk does;
 * without any, about a millisecond.
 */
export function alterationOf(tables: Tables, headerId: string, read: Read): Problem | null {
  const detail = whatIsWrong(tables, headerId, read);
  return detail === null ? null : { kind: 'alteredHeader', headerId, name: read.header.name, detail };
}

function whatIsWrong(
  { archive, snapshots, pictures }: Tables,
  headerId: string,
  { header, revision }: Read,
): string | null {
  const row = archive.find(headerId);
  if (row === null) return 'its record in the archive is missing';
  const frozen = frozenIn(row);
  if (frozen === null) return 'its record in the archive is damaged';
  // What is shown may have been put together from an older snapshot and the steps after it.
  const isAsFinished = canonicalJson(snapshots.at(headerId, revision)) === canonicalJson(header);
  if (!isAsFinished || header.id !== headerId) return 'its document is damaged';
  const rows = pictures.rowsOf(headerId);
  const damaged = rows.findIndex((picture) => !isIntact('pictures', picture) || pictures.file(picture) === null);
  if (damaged >= 0) return `picture ${damaged + 1} is damaged`;
  const seal = sealOf({ header, ...frozen, pictures: rows.map(factsOf) });
  return seal === row.seal ? null : 'its checksum is another than when it was finished';
}
