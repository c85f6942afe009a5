/** The archive: records of finished headers, kept as they were when the header was finished, and found again. */

import type Database from 'better-sqlite3';
import { buildFigures, type Header, likenessFigures, mmOf } from '../../../core/index.ts';
import type { RequestOf, ResponseOf } from '../../bridge/contract.ts';
import type { ReadOnly } from '../../bridge/dispatcher.ts';
import { type FinishedFigures, type FinishedRecord, figuresSchema, frozenPlansSchema } from '../finished/record.ts';
import type { Row, StoredRow } from '../rows/columns.ts';
import { isIntact, readCell, rowTable } from '../rows/row-table.ts';
import { archiveSearch, folded } from './archive-search.ts';

export type ArchiveRow = ReadOnly<ResponseOf<'searchArchive'>['rows'][number]>;
type Found = ReadOnly<ResponseOf<'searchArchive'>>;
type Finished = ReadOnly<ResponseOf<'readShopFigures'>['finished'][number]>;

/** How a header came to be finished, which it does not tell itself. */
interface FinishedAs {
  readonly finishedAt: Date;
  readonly jointsOpened: number | null;
}

/** What the archive keeps of a record beside the document and the pictures. */
type Frozen = Pick<FinishedRecord, 'figures' | 'plans'>;

export function archiveTable(db: Database.Database) {
  const rows = rowTable(db, 'archive', ['place']);
  const byHeader = rowTable(db, 'archive', ['header_id']);
  const nextPlace = db.prepare<[], number>('SELECT coalesce(max(place), 0) + 1 FROM archive').pluck();
  const NOT_BINNED = 'header_id NOT IN (SELECT header_id FROM bin)';
  const inOrder = db.prepare<[], StoredRow<'archive'>>(
    `SELECT * FROM archive WHERE ${NOT_BINNED} ORDER BY finished_at, place`,
  );
  const ids = db.prepare<[], string>(`SELECT header_id FROM archive WHERE ${NOT_BINNED} ORDER BY place`).pluck();
  const sealed = db.prepare<[string], string>('SELECT header_id FROM archive WHERE seal = ? ORDER BY place').pluck();
  const search = archiveSearch(db);
  return {
    /** @param seal `sealOf` the record */
    add: (headerId: string, frozen: Frozen, seal: string): unknown =>
      rows.insert({ place: nextPlace.get() ?? 1, ...rowFor(headerId, frozen), seal }),
    /** Not yet checked. */
    find: (headerId: string): StoredRow<'archive'> | null => byHeader.find(headerId) ?? null,
    /** All but those in the bin, in the order in which they came. */
    ids: (): readonly string[] => ids.all(),
    /** Headers with this checksum, the damaged among them. */
    withSeal: (seal: string): readonly string[] => sealed.all(seal),
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
    finished: (): readonly Finished[] => inOrder.all().flatMap(finishedIn),
  };
}

/** What a row holds, if it is as it was written. */
export function frozenIn(row: StoredRow<'archive'>): Frozen | null {
  const figures = keptFigures(row);
  const plans = readCell(frozenPlansSchema, row.plans);
  return figures === null || plans === null ? null : { figures, plans };
}

function keptFigures(row: StoredRow<'archive'>): FinishedFigures | null {
  return isIntact('archive', row) ? readCell(figuresSchema, row.figures) : null;
}

function finishedIn(row: StoredRow<'archive'>): readonly Finished[] {
  const kept = keptFigures(row);
  if (kept === null) return [];
  const { name, finishedAt, jointsOpened } = kept;
  return [
    { headerId: row.header_id, name, finishedAt, spreadMm: hasSpread(kept) ? kept.spreadMm : null, jointsOpened },
  ];
}

/** Nothing is longer than anything else in a header of one primary, or of none that has pieces. */
function hasSpread({ primaryCount, meanMm }: FinishedFigures): boolean {
  return primaryCount > 1 && meanMm > 0;
}

function rowFor(headerId: string, { figures, plans }: Frozen): Omit<Row<'archive'>, 'place' | 'seal'> {
  const { name, note, material, odMm, wallMm, primaryCount, targetMm, spreadMm, finishedAt } = figures;
  return {
    header_id: headerId,
    words: folded([name, note, material].join('\n')),
    material: folded(material),
    od_mm: odMm,
    wall_mm: wallMm,
    primary_count: primaryCount,
    target_mm: targetMm,
    spread_mm: spreadMm,
    finished_at: new Date(finishedAt).getTime(),
    figures: JSON.stringify(figures),
    plans: JSON.stringify(plans),
  };
}

function rowOf(row: StoredRow<'archive'>, headerOf: (id: string) => Header | null): readonly ArchiveRow[] {
  const headerId = row.header_id;
  const kept = keptFigures(row);
  if (kept !== null) return [{ headerId, ...kept, isDamaged: false }];
  const header = headerOf(headerId);
  if (header === null) return [];
  const figures = figuresOf(header, { finishedAt: new Date(row.finished_at), jointsOpened: null });
  return [{ headerId, ...figures, isDamaged: true }];
}

export function figuresOf(header: Header, { finishedAt, jointsOpened }: FinishedAs): FinishedFigures {
  const { tube, primaryCount, targetMm, meanMm, spreadMm } = buildFigures(header);
  const { name, note, settings } = header;
  return {
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
  };
}

function likeOf(header: Header): NonNullable<Found['like']> {
  return { headerId: header.id, name: header.name, ...likenessFigures(header) };
}
