/** Which finished headers fit what is asked, and in which order. */

import type Database from 'better-sqlite3';
import { type LikenessFigures, likenessDistance } from '../../../core/index.ts';
import type { RequestOf } from '../../bridge/contract.ts';

type Asked = RequestOf<'searchArchive'>;
/** Columns of a row as an array, which costs less than an object. Places are ascending as headers are finished. */
type LikenessRow = readonly [
  place: number,
  material: string,
  odMm: number,
  wallMm: number,
  primaryCount: number,
  targetMm: number,
];

/** Two lengths that were typed alike may differ by rounding after conversion. */
const SAME_MM = 1e-6;

/** Of columns that the index holds, and no others: rows themselves are many times as long. */
const FITTING = `FROM archive
  WHERE (@primaryCount IS NULL OR primary_count = @primaryCount)
    AND (@odLow IS NULL OR od_mm BETWEEN @odLow AND @odHigh)
    AND (@targetLow IS NULL OR target_mm BETWEEN @targetLow AND @targetHigh)
    AND (@spreadLow IS NULL OR spread_mm BETWEEN @spreadLow AND @spreadHigh)
    AND (@finishedLow IS NULL OR finished_at BETWEEN @finishedLow AND @finishedHigh)
    AND instr(material, @material) > 0
    AND NOT EXISTS (SELECT 1 FROM json_each(@words) AS word WHERE instr(words, word.value) = 0)
    AND header_id <> @likeId
    AND header_id NOT IN (SELECT header_id FROM bin)
  ORDER BY place DESC`;

/**
 * Gives the places of those that fit, in order: most like `like` first, and of equally like ones those finished last; without
 * it, those finished last first. Ranges include their ends. Linear in the number of finished headers.
 */
export function archiveSearch(db: Database.Database) {
  const places = db.prepare<[Record<string, number | string | null>], number>(`SELECT place ${FITTING}`).pluck();
  const withFigures = db
    .prepare<[Record<string, number | string | null>], LikenessRow>(
      `SELECT place, material, od_mm, wall_mm, primary_count, target_mm ${FITTING}`,
    )
    .raw();
  return (asked: Asked, like: LikenessFigures | null): readonly number[] => {
    const bound = boundValues(asked);
    if (like === null) return places.all(bound);
    const wanted = { ...like, material: folded(like.material) };
    const rows = withFigures.all(bound) as unknown as readonly LikenessRow[];
    const distances = Float64Array.from(rows, (row) => likenessDistance(wanted, likenessOf(row)));
    const order = Uint32Array.from(rows.keys());
    // They come with the last finished first, which settles the order of equally like ones.
    order.sort((a, b) => (distances[a] ?? 0) - (distances[b] ?? 0) || a - b);
    return Array.from(order, (at) => rows[at]?.[0] ?? 0);
  };
}

function boundValues(asked: Asked): Record<string, number | string | null> {
  const { odMm, targetMm, spreadMm, finishedAt } = asked;
  return {
    words: JSON.stringify(folded(asked.words).split(/\s+/).filter(Boolean)),
    material: folded(asked.material.trim()),
    primaryCount: asked.primaryCount,
    likeId: asked.likeId ?? '',
    ...rangeOf('od', odMm && { low: odMm.lowMm - SAME_MM, high: odMm.highMm + SAME_MM }),
    ...rangeOf('target', targetMm && { low: targetMm.lowMm - SAME_MM, high: targetMm.highMm + SAME_MM }),
    ...rangeOf('spread', spreadMm && { low: spreadMm.lowMm - SAME_MM, high: spreadMm.highMm + SAME_MM }),
    ...rangeOf('finished', finishedAt),
  };
}

function rangeOf(name: string, range: { readonly low: number; readonly high: number } | null) {
  return { [`${name}Low`]: range?.low ?? null, [`${name}High`]: range?.high ?? null };
}

function likenessOf([, material, odMm, wallMm, primaryCount, targetMm]: LikenessRow): LikenessFigures {
  return { material, odMm, wallMm, primaryCount, targetMm };
}

/** Letters without case and accents, so that a search finds what was meant. */
export function folded(text: string): string {
  return text.normalize('NFKD').replaceAll(/\p{M}/gu, '').toLowerCase();
}
