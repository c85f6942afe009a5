/** All primaries of a header that are to be proposed, each with the inlets that it may end in. */

import type { Header, Primary } from '../../header/header.ts';
import { matchHeader } from '../../length/match-header.ts';
import { collectorOf } from '../../path/ends/inlet-pose.ts';
import { MM_PER_INCH, mmOf } from '../../units/length.ts';
import { unitOf } from '../../units/length-style.ts';
import { guessedLengthsMm } from '../joints/many-bends.ts';
import type { NoProposalReason } from '../outcome.ts';
import { weldedMm } from '../problem/centreline.ts';
import { type ProposeProblem, readProposeProblem } from '../problem/propose-problem.ts';
import { leastWelded } from '../reach/length-ranges.ts';
import type { HeaderProposeOptions } from './header-outcome.ts';
import { fewBends } from './tube-pool.ts';

/** One primary with one inlet. */
export interface Placing {
  readonly primaryId: string;
  readonly inletId: string;
  readonly collectorId: string;
  /** Null: none was found with up to two bends. */
  readonly leastMm: number | null;
  /** Lengths as welded that may do where that is null, the shortest first. */
  readonly guessesMm: readonly number[];
  /** No tube has fewer: 0 in one line, 1 where the axes meet, else 2. */
  readonly leastBends: number;
  /** The question for a length. */
  readonly at: (lengthMm: number) => ProposeProblem | null;
}

export interface HeaderProposeProblem {
  readonly header: Header;
  /** By primary, in the order of the header. */
  readonly placings: readonly (readonly Placing[])[];
  /** One length for all that is asked for, or the header's target where it does not hang on what is proposed; mm as welded. */
  readonly targetMm: number | null;
  /** The length that is found becomes the target, which would be another one without. */
  readonly setsTarget: boolean;
  /** The header without what is replaced. */
  readonly bare: Header;
  /** Those that cannot be proposed at all, with the reason. */
  readonly refused: readonly { readonly primaryId: string; readonly reason: NoProposalReason }[];
}

/** Reasons that are no trouble: such a primary is left as it is. */
const LEFT_ALONE: ReadonlySet<NoProposalReason['kind']> = new Set(['allThere', 'endsUnknown']);

/** Pauses while the least length of each primary with each inlet is solved for. */
export function* readHeaderProblem(
  header: Header,
  options: HeaderProposeOptions,
): Generator<void, HeaderProposeProblem> {
  const reads = header.primaries.map((primary) => ({ primary, read: readProposeProblem(header, primary.id, options) }));
  yield;
  const inHand = reads.filter(({ read }) => read.ok);
  const refused = reads.flatMap(({ primary, read }) =>
    read.ok || LEFT_ALONE.has(read.reason.kind) ? [] : [{ primaryId: primary.id, reason: read.reason }],
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
  const lengthMm = options.lengthMm ?? null;
  const ownTargetMm = standingTargetMm(bare, new Set(primaries.map(({ id }) => id)));
  const isTargetFree = options.target === 'best';
  const standingMm = isTargetFree ? null : ownTargetMm;
  const band = bandOf(bare, lengthMm === null && standingMm !== null);
  const placings: (readonly Placing[])[] = [];
  for (const primary of primaries) placings.push(yield* placingsOf({ bare, primaries, options, band }, primary));
  return {
    header,
    placings,
    bare,
    targetMm: lengthMm ?? standingMm,
    setsTarget: isTargetFree && ownTargetMm !== null,
    refused,
  };
}

interface Bare {
  readonly bare: Header;
  readonly primaries: readonly Primary[];
  readonly options: HeaderProposeOptions;
  readonly band: Band;
}

interface Band {
  readonly minusMm: number;
  readonly plusMm: number;
}

/**
 * How far each may be off the one length so that all come into the header's band. Where the target stands already that is its tolerance, but that none may outgrow the
 * longest; where the target is made by the lengths themselves, any two of them must lie within it.
 */
function bandOf({ settings: { target, tolerance } }: Header, isTargetStanding: boolean): Band {
  const [minusMm, plusMm] = [mmOf(tolerance.minus), mmOf(tolerance.plus)];
  if (target.kind === 'longest') return isTargetStanding ? { minusMm, plusMm: 0 } : evenBand(minusMm);
  return isTargetStanding ? { minusMm, plusMm } : evenBand(Math.min(minusMm, plusMm));
}

function evenBand(wholeMm: number): Band {
  return { minusMm: wholeMm / 2, plusMm: wholeMm / 2 };
}

/** The header's target where it does not hang on what is proposed. */
function standingTargetMm(bare: Header, inHand: ReadonlySet<string>): number | null {
  const { targetMm, targetPrimaryId } = matchHeader(bare);
  return targetPrimaryId !== null && inHand.has(targetPrimaryId) ? null : targetMm;
}

/** With its own inlet first, then those of the other primaries in hand that go into the same collector. */
function* placingsOf({ bare, primaries, options, band }: Bare, primary: Primary): Generator<void, readonly Placing[]> {
  const collector = collectorOf(bare, primary);
  if (collector === null || primary.inletId === null) return [];
  const others = primaries.flatMap(({ inletId }) => (inletId === null || inletId === primary.inletId ? [] : [inletId]));
  const shared =
    options.inlets === 'asTheyAre' ? [] : others.filter((id) => collector.inlets.some((inlet) => inlet.id === id));
  const placings: Placing[] = [];
  for (const inletId of [primary.inletId, ...shared]) {
    const header = {
      ...bare,
      primaries: bare.primaries.map((one) => (one.id === primary.id ? { ...one, inletId } : one)),
    };
    const at = (lengthMm: number) => {
      const length = { kind: 'about', lengthMm, ...band } as const;
      const read = readProposeProblem(header, primary.id, { ...options, length });
      return read.ok ? read.problem : null;
    };
    const any = at(1);
    if (any === null) continue;
    const leastMm = yield* leastWelded(any);
    const leastBends = Math.min(2, ...fewBends(any, null).map(({ bends }) => bends.length));
    const guessesMm = guessedLengthsMm(any.ends, any.clrs.map(mmOf)).map((mm) => weldedMm(any, mm, 3));
    placings.push({ primaryId: primary.id, inletId, collectorId: collector.id, leastMm, guessesMm, leastBends, at });
  }
  return placings;
}

/** Over the least of the farthest, where nothing says how long: common practice leaves a little to bend with. */
const OVER_LEAST = [1.06, 1.03, 1.12];
/** Where none of these leaves room for all: longer tubes go round each other. */
const FURTHER_OVER_LEAST = [1.18, 1.25, 1.33, 1.4, 1.5, 1.6];

/**
 * Lengths that are tried, in order; the first that takes as few bends as any can is taken. Those that nobody asked for are such as a tape can
 * read. Where the least of a primary is not known, guesses stand for it.
 */
export function lengthsToTry({ targetMm, placings, bare }: HeaderProposeProblem): readonly number[] {
  if (targetMm !== null) return [targetMm];
  const own = ownPlacings({ placings });
  if (own.length === 0) return [];
  if (isLeastKnown(own)) return OVER_LEAST.map((over) => overFarthest({ bare, own }, over));
  const [over = 1] = OVER_LEAST;
  return [0, 1, 2].map((guess) => overFarthest({ bare, own }, over, guess));
}

/** Lengths that are tried where each primary has tubes at those of `lengthsToTry`, but no set of them goes together. */
export function furtherLengths({ targetMm, placings, bare }: HeaderProposeProblem): readonly number[] {
  const own = ownPlacings({ placings });
  if (targetMm !== null || own.length === 0 || !isLeastKnown(own)) return [];
  return FURTHER_OVER_LEAST.map((over) => overFarthest({ bare, own }, over));
}

/** Each primary with its own inlet. */
function ownPlacings({ placings }: Pick<HeaderProposeProblem, 'placings'>): readonly Placing[] {
  return placings.flatMap(([first]) => first ?? []);
}

function isLeastKnown(own: readonly Placing[]): boolean {
  return own.every(({ leastMm }) => leastMm !== null);
}

/** So many times the least of the farthest, or one of its guesses, to what a tape can read. */
function overFarthest(
  { bare, own }: Pick<HeaderProposeProblem, 'bare'> & { readonly own: readonly Placing[] },
  over: number,
  guess = 0,
): number {
  const stepMm = unitOf(bare.settings.display) === 'in' ? MM_PER_INCH / 16 : 1;
  const leastsMm = own.map(({ leastMm, guessesMm }) => leastMm ?? guessesMm[guess] ?? 0);
  return Math.ceil((over * Math.max(...leastsMm)) / stepMm) * stepMm;
}
