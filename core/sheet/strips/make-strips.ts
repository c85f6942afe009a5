/** Strips as they are asked for: of a primary or a pie-cut bend of the header, of a cope, or of a merge. */

import * as z from 'zod';
import { type Header, type Primary, tubeOf } from '../../header/header.ts';
import { lengthSchema } from '../../header/quantity-schema.ts';
import { idSchema } from '../../header/schema.ts';
import type { PathProblem } from '../../path/path-problem.ts';
import { failure, type Result, success } from '../../result.ts';
import { mmOf } from '../../units/length.ts';
import type { StripProblem } from '../sheet-problem.ts';
import { alongStrip } from './along-strip.ts';
import { clockingStrips } from './clocking-strips.ts';
import { copeStrip } from './cope-strip.ts';
import { mergeStrip } from './merge-strip.ts';
import { pieStrips } from './pie-strips.ts';
import type { Strip } from './strip.ts';
import { stripTooLarge } from './strip-size.ts';

const angle = z.number().min(-360).max(360);
const signedLength = z.strictObject({ value: z.number().min(-1e6).max(1e6), unit: z.enum(['in', 'mm']) });

export const stripsAskedSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('along'), primaryId: idSchema }),
  z.strictObject({ kind: z.literal('clocking'), primaryId: idSchema }),
  /** Of every pie-cut bend of the primary. */
  z.strictObject({ kind: z.literal('pies'), primaryId: idSchema }),
  z.strictObject({
    kind: z.literal('cope'),
    runOd: lengthSchema,
    branchOd: lengthSchema,
    branchWall: lengthSchema,
    angleDeg: angle,
    offset: signedLength,
    cutTo: z.enum(['inside', 'outside']),
  }),
  z.strictObject({
    kind: z.literal('merge'),
    tubes: z.union([z.literal(2), z.literal(3), z.literal(4)]),
    od: lengthSchema,
    leanDeg: angle,
    outletOd: lengthSchema,
  }),
]);

export type StripsAsked = z.output<typeof stripsAskedSchema>;

/** In the order in which they are used; none where a primary has nothing to make one of. */
export function makeStrips(header: Header, asked: StripsAsked): Result<readonly Strip[], StripProblem | PathProblem> {
  const made = stripsAsked(header, asked);
  if (!made.ok) return made;
  const problems = made.value.map(stripTooLarge).filter((problem) => problem !== null);
  return problems.length === 0 ? made : failure(...problems.slice(0, 1));
}

function stripsAsked(header: Header, asked: StripsAsked): Result<readonly Strip[], StripProblem | PathProblem> {
  const style = header.settings.display;
  switch (asked.kind) {
    case 'cope': {
      const { runOd, branchOd, branchWall, offset, angleDeg, cutTo } = asked;
      const joint = { runOdMm: mmOf(runOd), branchOdMm: mmOf(branchOd), branchWallMm: mmOf(branchWall) };
      return listed(copeStrip({ ...joint, angleDeg, offsetMm: mmOf(offset), cutTo }, style));
    }
    case 'merge': {
      const { tubes, od, leanDeg, outletOd } = asked;
      return listed(mergeStrip({ tubes, odMm: mmOf(od), leanDeg, outletOdMm: mmOf(outletOd) }, style));
    }
    default: {
      const primary = header.primaries.find(({ id }) => id === asked.primaryId);
      return primary === undefined
        ? failure({ kind: 'noSuchPrimary', primaryId: asked.primaryId })
        : stripsOfPrimary(header, primary, asked.kind);
    }
  }
}

function listed(strip: Result<Strip, StripProblem>): Result<readonly Strip[], StripProblem> {
  return strip.ok ? success([strip.value]) : strip;
}

function stripsOfPrimary(
  header: Header,
  primary: Primary,
  kind: 'along' | 'clocking' | 'pies',
): Result<readonly Strip[], StripProblem> {
  if (kind === 'clocking') return success(clockingStrips(header, primary));
  if (kind === 'pies') return strippedPies(header, primary);
  const along = alongStrip(header, primary);
  return success(along === null ? [] : [along]);
}

/** Bends that are alike need one set of strips; it is named after the first. */
function strippedPies(header: Header, primary: Primary): Result<readonly Strip[], StripProblem> {
  const strips: Strip[] = [];
  const seen = new Set<string>();
  for (const [index, piece] of primary.pieces.entries()) {
    if (piece.kind !== 'pieCut') continue;
    const bend = { clrMm: mmOf(piece.clr), angleDeg: piece.angleDeg, pies: piece.pies };
    const key = JSON.stringify(bend);
    if (seen.has(key)) continue;
    seen.add(key);
    const asked = { bend, odMm: mmOf(tubeOf(header, primary).od), mark: markOf(primary, index) };
    const made = pieStrips(asked, header.settings.display);
    if (!made.ok) return made;
    strips.push(...made.value);
  }
  return success(strips);
}

/** `2-5`: the fifth piece of primary 2. */
function markOf(primary: Primary, index: number): string {
  return `${primary.name}-${index + 1}`;
}
