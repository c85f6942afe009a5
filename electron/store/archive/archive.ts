/** The archive: figures of finished headers, kept as they were when the header was finished, and found again. */

import type Database from 'better-sqlite3';
import * as z from 'zod';
import { buildFigures, type Header, lengthStyleSchema, mmOf } from '../../../core/index.ts';
import type { RequestOf, ResponseOf } from '../../bridge/contract.ts';
import { LAST_PLACE } from '../header/header-list.ts';
import { isIntact } from '../rows/checksums.ts';
import type { Row, StoredRow } from '../rows/columns.ts';
import { cellOf } from '../rows/read-row.ts';
import { rowTable } from '../rows/row-table.ts';

export type ArchiveRow = ResponseOf<'searchArchive'>['rows'][number];

const primariesSchema: z.ZodType<ArchiveRow['primaries']> = z.array(
  z.strictObject({
    name: z.string(),
    lengthMm: z.number(),
    pieces: z.array(z.strictObject({ kind: z.enum(['straight', 'bend', 'pieCut']), lengthMm: z.number() })),
  }),
);

/** Two lengths that were typed alike may differ by rounding after conversion. */
const SAME_MM = 1e-6;

export function archiveTable(db: Database.Database) {
  const rows = rowTable(db, 'archive', ['header_id']);
  const search = db.prepare<[Record<string, number | string | null>], StoredRow<'archive'>>(
    `SELECT archive.* FROM archive JOIN headers ON headers.id = archive.header_id
     WHERE (@primaryCount IS NULL OR archive.primary_count = @primaryCount)
       AND (@odLowMm IS NULL OR od_mm BETWEEN @odLowMm AND @odHighMm)
       AND (@targetLowMm IS NULL OR target_mm BETWEEN @targetLowMm AND @targetHighMm)
       AND NOT EXISTS (SELECT 1 FROM json_each(@words) AS word WHERE instr(archive.words, word.value) = 0)
       AND archive.header_id NOT IN (SELECT header_id FROM bin)
     ORDER BY ${LAST_PLACE} DESC`,
  );
  return {
    add: (header: Header, finishedAt: string): unknown => rows.insert(figuresOf(header, finishedAt)),
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
        .flatMap((row) => (isIntact('archive', row) ? archiveRow(row) : workedOut(row, headerOf(row.header_id)))),
  };
}

function workedOut(row: StoredRow<'archive'>, header: Header | null): ArchiveRow[] {
  return header === null ? [] : [archiveRow(figuresOf(header, row.finished_at))];
}

function rangeOf(name: 'od' | 'target', range: { lowMm: number; highMm: number } | null) {
  return {
    [`${name}LowMm`]: range === null ? null : range.lowMm - SAME_MM,
    [`${name}HighMm`]: range === null ? null : range.highMm + SAME_MM,
  };
}

function figuresOf(header: Header, finishedAt: string): Row<'archive'> {
  const { tube, targetMm, meanMm, spreadMm, primaries } = buildFigures(header);
  return {
    header_id: header.id,
    name: header.name,
    note: header.note,
    finished_at: finishedAt,
    display: JSON.stringify(header.settings.display),
    material: tube.material,
    od_mm: mmOf(tube.od),
    target_mm: targetMm,
    mean_mm: meanMm,
    spread_mm: spreadMm,
    primary_count: primaries.length,
    words: folded([header.name, header.note, tube.material].join('\n')),
    primaries: JSON.stringify(primaries),
  };
}

/** Letters without case and accents, so that a search finds what was meant. */
function folded(text: string): string {
  return text.normalize('NFKD').replaceAll(/\p{M}/gu, '').toLowerCase();
}

function archiveRow(row: Row<'archive'>): ArchiveRow {
  return {
    headerId: row.header_id,
    name: row.name,
    note: row.note,
    finishedAt: row.finished_at,
    display: cellOf(lengthStyleSchema, row.display, `the display unit of header ${row.header_id}`),
    material: row.material,
    odMm: row.od_mm,
    targetMm: row.target_mm,
    meanMm: row.mean_mm,
    spreadMm: row.spread_mm,
    primaries: cellOf(primariesSchema, row.primaries, `the archived figures of header ${row.header_id}`),
  };
}
