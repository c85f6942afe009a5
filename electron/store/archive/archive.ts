/** The archive: figures of finished headers, kept as they were when the header was finished, and found again. */

import type Database from 'better-sqlite3';
import { buildFigures, type Header, likenessFigures, mmOf } from '../../../core/index.ts';
import type { RequestOf, ResponseOf } from '../../bridge/contract.ts';
import type { ReadOnly } from '../../bridge/dispatcher.ts';
import { archiveRowSchema } from '../../bridge/messages.ts';
import type { Row, StoredRow } from '../rows/columns.ts';
import { isIntact, readCell, rowTable } from '../rows/row-table.ts';
import { archiveSearch, folded } from './archive-search.ts';

export type ArchiveRow = ReadOnly<ResponseOf<'searchArchive'>['rows'][number]>;
type Found = ReadOnly<ResponseOf<'searchArchive'>>;
type Finished = ReadOnly<ResponseOf<'readShopFigures'>['finished'][number]>;

/** How a header came to be finished, which it does not tell itself. */
export interface FinishedAs {
  readonly finishedAt: Date;
  readonly jointsOpened: number | null;
}

export function archiveTable(db: Database.Database) {
  const rows = rowTable(db, 'archive', ['place']);
  const nextPlace = db.prepare<[], number>('SELECT coalesce(max(place), 0) + 1 FROM archive').pluck();
  const inOrder = db.prepare<[], StoredRow<'archive'>>(
    'SELECT * FROM archive WHERE header_id NOT IN (SELECT header_id FROM bin) ORDER BY place',
  );
  const search = archiveSearch(db);
  return {
    add: (header: Header, as: FinishedAs): unknown => rows.insert(rowFor(header, as, nextPlace.get() ?? 1)),
    /** The figures of a damaged row are worked out again from its header; where that cannot be read either, it is passed over. */
    search(request: RequestOf<'searchArchive'>, headerOf: (id: string) => Header | null): Found {
      const liked = request.likeId === null ? null : headerOf(request.likeId);
      const like = liked === null ? null : likeOf(liked);
      const places = search(request, like);
      const page = places.slice(request.from, request.from + request.most);
      const found = page.flatMap((place) => rows.find(place) ?? []);
      return { rows: found.flatMap((row) => rowOf(row, headerOf)), count: places.length, like };
    },
    /** All that can be read, in the order in which they were finished. Linear; 10,000 take some 50 ms. */
    finished: (): readonly Finished[] =>
      inOrder.all().flatMap((row) => {
        const kept = keptFigures(row);
        if (kept === null) return [];
        const { headerId, name, finishedAt, spreadMm, jointsOpened } = kept;
        return [{ headerId, name, finishedAt, spreadMm, jointsOpened }];
      }),
  };
}

function rowFor(header: Header, as: FinishedAs, place: number): Row<'archive'> {
  const figures = figuresOf(header, as);
  const { name, note, material, odMm, wallMm, primaryCount, targetMm, spreadMm } = figures;
  return {
    place,
    header_id: header.id,
    words: folded([name, note, material].join('\n')),
    material: folded(material),
    od_mm: odMm,
    wall_mm: wallMm,
    primary_count: primaryCount,
    target_mm: targetMm,
    spread_mm: spreadMm,
    finished_at: as.finishedAt.getTime(),
    figures: JSON.stringify(figures),
  };
}

function rowOf(row: StoredRow<'archive'>, headerOf: (id: string) => Header | null): readonly ArchiveRow[] {
  const kept = keptFigures(row);
  if (kept !== null) return [kept];
  const header = headerOf(row.header_id);
  if (header === null) return [];
  return [{ ...figuresOf(header, { finishedAt: new Date(row.finished_at), jointsOpened: null }), isDamaged: true }];
}

function keptFigures(row: StoredRow<'archive'>): ArchiveRow | null {
  return isIntact('archive', row) ? readCell(archiveRowSchema, row.figures) : null;
}

function figuresOf(header: Header, { finishedAt, jointsOpened }: FinishedAs): ArchiveRow {
  const { tube, primaryCount, targetMm, meanMm, spreadMm } = buildFigures(header);
  const { id, name, note, settings } = header;
  return {
    headerId: id,
    name,
    note,
    finishedAt: finishedAt.toISOString(),
    display: settings.display,
    material: tube.material,
    odMm: mmOf(tube.od),
    wallMm: mmOf(tube.wall),
    primaryCount,
    targetMm,
    meanMm,
    spreadMm,
    jointsOpened,
    isDamaged: false,
  };
}

function likeOf(header: Header): NonNullable<Found['like']> {
  return { headerId: header.id, name: header.name, ...likenessFigures(header) };
}
