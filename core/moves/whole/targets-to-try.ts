/** Which targets a whole header may be brought to. */

import type { Header, Target } from '../../header/header.ts';
import type { MatchReport } from '../../length/match-header.ts';
import { MM_PER_INCH, mmOf } from '../../units/length.ts';
import { unitOf } from '../../units/length-style.ts';
import { isAllThere } from './all-there.ts';

/** Lengths that differ by less are one target. */
const SAME_MM = 0.01;

/** Targets at the edge of a band are typed to so many parts of their unit, on the side that keeps the primary in its band. */
const PARTS = { in: 64, mm: 10 } as const;

/** Where another primary's move ends just inside an edge, so many tell them apart. */
const FINE_PARTS = { in: 1000, mm: 100 } as const;

/**
 * The present target first (null). Then the length of each primary; the lengths at which a primary just comes into the band, above and
 * below its own; and the mean. Between two neighbouring edges the same primaries are in the band, so that no other target saves
 * another primary from being changed.
 */
export function targetsToTry(header: Header, match: MatchReport): readonly (Target | null)[] {
  const targets: (Target | null)[] = [null];
  const tried = [match.targetMm ?? 0];
  const isNew = (mm: number) => {
    if (tried.some((other) => Math.abs(other - mm) < SAME_MM)) return false;
    tried.push(mm);
    return true;
  };
  const there = match.primaries.filter(isAllThere);
  for (const { primaryId, lengthMm } of there) {
    if (isNew(lengthMm)) targets.push({ kind: 'primary', primaryId });
  }
  for (const { lengthMm } of there) {
    for (const target of bandEdges(header, lengthMm, PARTS)) {
      const mm = mmOf(target.length);
      if (mm > 0 && isNew(mm)) targets.push(target);
    }
  }
  if (match.meanMm !== null && isNew(match.meanMm)) targets.push(typedTarget(header, match.meanMm));
  return targets;
}

/** The targets that have a length just inside the top and just inside the bottom of their bands. */
function bandEdges(header: Header, lengthMm: number, parts: Rounding['parts']): readonly TypedTarget[] {
  const { minus, plus } = header.settings.tolerance;
  return [
    typedTarget(header, lengthMm + mmOf(minus), { round: Math.floor, parts }),
    typedTarget(header, lengthMm - mmOf(plus), { round: Math.ceil, parts }),
  ];
}

/** Of `PARTS`, by so many are targets near the best off it. */
const NEAR_PARTS = [1, -1, 2, -2, 4, -4];

/** Targets close to one of so many mm: the same primaries are in the band of most of them, but another move may do for the others. */
export function targetsNear(header: Header, mm: number): readonly Target[] {
  return NEAR_PARTS.map((off) => typedToPart(header, mm + off * partMmOf(header))).filter(
    ({ length }) => mmOf(length) > 0,
  );
}

/** To the nearest part that targets are typed to. */
export function typedToPart(header: Header, mm: number): TypedTarget {
  return typedTarget(header, mm, { round: Math.round, parts: PARTS });
}

function partMmOf({ settings }: Header): number {
  const unit = unitOf(settings.display);
  return (unit === 'in' ? MM_PER_INCH : 1) / PARTS[unit];
}

/** Of targets the nearest below and above one of so many mm, but none that `targetsNear` has. */
export function nextTo(
  { header, match }: { readonly header: Header; readonly match: MatchReport },
  targets: readonly (Target | null)[],
  mm: number,
): readonly (Target | null)[] {
  const closeMm = Math.max(...NEAR_PARTS) * partMmOf(header);
  const far = targets
    .map((target) => ({ target, offMm: targetMmOf(match, target) - mm }))
    .filter(({ offMm }) => Math.abs(offMm) > closeMm)
    .sort((a, b) => Math.abs(a.offMm) - Math.abs(b.offMm));
  const both = [far.find(({ offMm }) => offMm < 0), far.find(({ offMm }) => offMm > 0)];
  return both.flatMap((one) => (one === undefined ? [] : [one.target]));
}

function targetMmOf(match: MatchReport, target: Target | null): number {
  if (target?.kind === 'typed') return mmOf(target.length);
  if (target?.kind !== 'primary') return match.targetMm ?? 0;
  return match.primaries.find(({ primaryId }) => primaryId === target.primaryId)?.lengthMm ?? 0;
}

/** The edges of all bands, finely typed; those nearest to one of so many mm first. */
export function fineEdges(header: Header, match: MatchReport, mm: number): readonly Target[] {
  const offMm = ({ length }: TypedTarget) => Math.abs(mmOf(length) - mm);
  return match.primaries
    .filter(isAllThere)
    .flatMap(({ lengthMm }) => bandEdges(header, lengthMm, FINE_PARTS))
    .filter(({ length }) => mmOf(length) > 0)
    .sort((a, b) => offMm(a) - offMm(b));
}

export type TypedTarget = Extract<Target, { readonly kind: 'typed' }>;

interface Rounding {
  readonly round: (parts: number) => number;
  readonly parts: { readonly in: number; readonly mm: number };
}

/** Rounded as asked; not at all without a way to round. */
export function typedTarget(header: Header, mm: number, rounding?: Rounding): TypedTarget {
  const unit = unitOf(header.settings.display);
  const value = unit === 'in' ? mm / MM_PER_INCH : mm;
  if (rounding === undefined) return { kind: 'typed', length: { value, unit } };
  const parts = rounding.parts[unit];
  return { kind: 'typed', length: { value: rounding.round(value * parts) / parts, unit } };
}
