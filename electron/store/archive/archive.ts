/** The archive: figures of finished headers, kept as they were when the header was finished, and found again. */

import type Database from 'better-sqlite3';
import { buildFigures, type Header, mmOf } from '../../../core/index.ts';
import type { RequestOf, ResponseOf } from '../../bridge/contract.ts';
import type { ReadOnly } from '../../bridge/dispatcher.ts';
import { type FinishedFigures, type FinishedRecord, figuresSchema, frozenPlansSchema } from '../finished/record.ts';
import { LAST_PLACE } from '../header/header-list.ts';
import type { StoredRow } from '../rows/columns.ts';
import { isIntact, readCell, rowTable } from '../rows/row-table.ts';

export type ArchiveRow = ReadOnly<ResponseOf<'searchArchive'>['rows'][number]>;

/** What the archive keeps of a record beside the document and the pictures. */
type Frozen = Pick<FinishedRecord, 'figures' | 'plans'> & { readonly seal: string };

/** With the time of the last step, which finished the header. */
type FoundRow = StoredRow<'archive'> & { readonly changed_at: number };

/** Two lengths that were typed alike may differ by rounding after conversion. */
const SAME_MM = 1e-6;

export function archiveTable(db: Database.Database) {
  const rows = rowTable(db, 'archive', ['header_id']);
  const sealed = db
    .prepare<[string], string>('SELECT header_id FROM archive WHERE seal = ? ORDER BY header_id')
    .pluck();
  const all = db
    .prepare<[], string>(
      `SELECT archive.header_id FROM archive JOIN headers ON headers.id = archive.header_id
       WHERE archive.header_id NOT IN (SELECT header_id FROM bin) ORDER BY ${LAST_PLACE}`,
    )
    .pluck();
  const search = db.prepare<[Record<string, number | string | null>], FoundRow>(
    `SELECT archive.*, coalesce(changed_at, 0) AS changed_at
     FROM archive JOIN headers ON headers.id = archive.header_id LEFT JOIN journal ON place = ${LAST_PLACE}
     WHERE (@primaryCount IS NULL OR archive.primary_count = @primaryCount)
       AND (@odLowMm IS NULL OR od_mm BETWEEN @odLowMm AND @odHighMm)
       AND (@targetLowMm IS NULL OR target_mm BETWEEN @targetLowMm AND @targetHighMm)
       AND NOT EXISTS (SELECT 1 FROM json_each(@words) AS word WHERE instr(archive.words, word.value) = 0)
       AND archive.header_id NOT IN (SELECT header_id FROM bin)
     ORDER BY place DESC`,
  );
  return {
    add(headerId: string, { figures, plans, seal }: Frozen): void {
      rows.insert({
        header_id: headerId,
        words: folded([figures.name, figures.note, figures.material].join('\n')),
        od_mm: figures.odMm,
        target_mm: figures.targetMm,
        primary_count: figures.primaries.length,
        figures: JSON.stringify(figures),
        plans: JSON.stringify(plans),
        seal,
      });
    },
    /** Not yet checked. */
    find: (headerId: string): StoredRow<'archive'> | null => rows.find(headerId) ?? null,
    /** What a row holds, if it is as it was written. */
    frozenIn(row: StoredRow<'archive'>): Omit<Frozen, 'seal'> | null {
      if (!isIntact('archive', row)) return null;
      const [figures, plans] = [readCell(figuresSchema, row.figures), readCell(frozenPlansSchema, row.plans)];
      return figures === null || plans === null ? null : { figures, plans };
    },
    /** All but those in the bin, in the order in which they came. */
    ids: (): readonly string[] => all.all(),
    /** Headers with this checksum, the damaged among them. */
    withSeal: (seal: string): readonly string[] => sealed.all(seal),
    /**
     * Every word must occur in name, note or material; ranges include their ends. Newest first. The figures of a damaged
     * row are worked out again from its header, if that can be read.
     */
    search: (request: RequestOf<'searchArchive'>, headerOf: (id: string) => Header | null): ArchiveRow[] =>
      search
        .all({
          words: JSON.stringify(folded(request.words).split(/\s+/).filter(Boolean)),
          primaryCount: request.primaryCount,
          ...rangeOf('od', request.odMm),
          ...rangeOf('target', request.targetMm),
        })
        .flatMap((row) => keptFigures(row) ?? workedOut(row, headerOf(row.header_id))),
  };
}

function keptFigures(row: FoundRow): ArchiveRow | null {
  const figures = isIntact('archive', row) ? readCell(figuresSchema, row.figures) : null;
  return figures === null ? null : { headerId: row.header_id, ...figures };
}

function workedOut(row: FoundRow, header: Header | null): ArchiveRow[] {
  if (header === null) return [];
  return [{ headerId: header.id, ...figuresOf(header, new Date(row.changed_at).toISOString()) }];
}

function rangeOf(name: 'od' | 'target', range: { lowMm: number; highMm: number } | null) {
  return {
    [`${name}LowMm`]: range === null ? null : range.lowMm - SAME_MM,
    [`${name}HighMm`]: range === null ? null : range.highMm + SAME_MM,
  };
}

/** @param finishedAt ISO 8601, UTC */
export function figuresOf(header: Header, finishedAt: string): FinishedFigures {
  const { tube, targetMm, meanMm, spreadMm, primaries } = buildFigures(header);
  const { name, note, settings } = header;
  const odMm = mmOf(tube.od);
  const { material } = tube;
  const { display } = settings;
  return { name, note, finishedAt, display, material, odMm, targetMm, meanMm, spreadMm, primaries };
}

/** Letters without case and accents, so that a search finds what was meant. */
function folded(text: string): string {
  return text.normalize('NFKD').replaceAll(/\p{M}/gu, '').toLowerCase();
}
