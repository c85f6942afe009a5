/** All primaries of a header that are to be proposed, each with the inlets that it may end in. */

import type { Header, Primary } from '../../header/header.ts';
import { matchHeader } from '../../length/match-header.ts';
import { collectorOf } from '../../path/ends/inlet-pose.ts';
import { mmOf } from '../../units/length.ts';
import type { NoProposalReason } from '../outcome.ts';
import { type ProposeProblem, readProposeProblem } from '../problem/propose-problem.ts';
import { leastWelded } from '../reach/length-ranges.ts';
import type { HeaderProposeOptions } from './header-outcome.ts';

/** One primary with one inlet. */
export interface Placing {
  readonly primaryId: string;
  readonly inletId: string;
  readonly collectorId: string;
  /** Null: none was found with two bends. */
  readonly leastMm: number | null;
  /** The question for a length. */
  readonly at: (lengthMm: number) => ProposeProblem | null;
}

export interface HeaderProposeProblem {
  readonly header: Header;
  /** By primary, in the order of the header. */
  readonly placings: readonly (readonly Placing[])[];
  /** The header without what is replaced. */
  readonly bare: Header;
  /** Those that cannot be proposed at all, with the reason. */
  readonly refused: readonly { readonly primaryId: string; readonly reason: NoProposalReason }[];
}

/** What stands in the way of no other primary: that it is not to be proposed. */
const NOT_TO_DO: ReadonlySet<NoProposalReason['kind']> = new Set(['allThere', 'endsUnknown']);

export function readHeaderProblem(header: Header, options: HeaderProposeOptions): HeaderProposeProblem {
  const reads = header.primaries.map((primary) => ({ primary, read: readProposeProblem(header, primary.id, options) }));
  const inHand = reads.filter(({ read }) => read.ok);
  const refused = reads.flatMap(({ primary, read }) =>
    read.ok || NOT_TO_DO.has(read.reason.kind) ? [] : [{ primaryId: primary.id, reason: read.reason }],
  );
  const kept = new Map(inHand.map(({ primary, read }) => [primary.id, read.ok ? read.problem.keptPieces : 0]));
  const bare = {
    ...header,
    primaries: header.primaries.map((primary) => ({
      ...primary,
      pieces: primary.pieces.slice(0, kept.get(primary.id) ?? primary.pieces.length),
    })),
  };
  const primaries = inHand.map(({ primary }) => primary);
  return {
    header,
    placings: primaries.map((primary) => placingsOf({ bare, primaries, options }, primary)),
    bare,
    refused,
  };
}

interface Bare {
  readonly bare: Header;
  readonly primaries: readonly Primary[];
  readonly options: HeaderProposeOptions;
}

/** With its own inlet first, then those of the other primaries in hand that go into the same collector. */
function placingsOf({ bare, primaries, options }: Bare, primary: Primary): readonly Placing[] {
  const collector = collectorOf(bare, primary);
  if (collector === null || primary.inletId === null) return [];
  const others = primaries.flatMap(({ inletId }) => (inletId === null || inletId === primary.inletId ? [] : [inletId]));
  const shared =
    options.inlets === 'asTheyAre' ? [] : others.filter((id) => collector.inlets.some((inlet) => inlet.id === id));
  return [primary.inletId, ...shared].flatMap((inletId): readonly Placing[] => {
    const header = {
      ...bare,
      primaries: bare.primaries.map((one) => (one.id === primary.id ? { ...one, inletId } : one)),
    };
    const { minus, plus } = bare.settings.tolerance;
    const at = (lengthMm: number) => {
      const length = { kind: 'about', lengthMm, minusMm: mmOf(minus), plusMm: mmOf(plus) } as const;
      const read = readProposeProblem(header, primary.id, { ...options, length });
      return read.ok ? read.problem : null;
    };
    const any = at(1);
    if (any === null) return [];
    return [{ primaryId: primary.id, inletId, collectorId: collector.id, leastMm: leastWelded(any), at }];
  });
}

/** Over the least of the farthest, where nothing says how long: common practice leaves a little to bend with. */
const OVER_LEAST = [1.06, 1.03, 1.12];

/** Lengths that are tried, in order; the first that takes as few bends as any can is taken. */
export function lengthsToTry(
  { bare, placings }: HeaderProposeProblem,
  options: HeaderProposeOptions,
): readonly number[] {
  if (options.lengthMm !== undefined && options.lengthMm !== null) return [options.lengthMm];
  const inHand = new Set(placings.flatMap(([first]) => (first === undefined ? [] : [first.primaryId])));
  const { targetMm, targetPrimaryId } = matchHeader(bare);
  if (targetMm !== null && (targetPrimaryId === null || !inHand.has(targetPrimaryId))) return [targetMm];
  const leasts = placings.map((some) => Math.min(...some.slice(0, 1).map(({ leastMm }) => leastMm ?? 0)));
  const farthestMm = Math.max(0, ...leasts.filter(Number.isFinite));
  return farthestMm === 0 ? [] : OVER_LEAST.map((over) => over * farthestMm);
}
