/** All primaries of a header at one length, clear of each other. */

import { applyEdit } from '../../edits/apply-edit.ts';
import { assignInletEdit } from '../../edits/collector-edits.ts';
import { type Edit, joinedStep } from '../../edits/edit.ts';
import { replaceRestEdit } from '../../edits/piece-edits.ts';
import type { Header, Piece, Primary } from '../../header/header.ts';
import { freshIds } from '../../moves/offer/fresh-ids.ts';
import { SearchInSlices, searchThrough } from '../../moves/search-in-slices.ts';
import { headerClearances } from '../../path/clearance/header-clearances.ts';
import { millimetres } from '../../units/length.ts';
import { buildProposal } from '../offer/build-proposal.ts';
import type { Candidate } from '../offer/candidate.ts';
import { piecesOf } from '../offer/pieces-of.ts';
import { Surroundings } from '../offer/surroundings.ts';
import type { ProposedPrimary } from '../outcome.ts';
import { type Keeper, ProposeSearch } from '../search.ts';
import type { HeaderProposal, HeaderProposalOutcome, HeaderProposeOptions } from './header-outcome.ts';
import { type HeaderProposeProblem, lengthsToTry, readHeaderProblem } from './header-problem.ts';
import { type Choice, Together } from './put-together.ts';
import { type PoolSize, poolOf } from './tube-pool.ts';

/** First few, then more: most headers need no more than the first. */
const SIZES: readonly PoolSize[] = [
  { three: 0, four: 0 },
  { three: 60, four: 0 },
  { three: 240, four: 120 },
];
const MOST_BENDS = 4;

/**
 * One tube for every primary that is empty or half built and has a port and an inlet, all at one length, the gap kept between them, to what stands there and to obstacles; pieces that are
 * tacked, welded or locked stay. Of one collector's inlets any primary in hand may take any, unless they are to stay as they are.
 *
 * For each primary and inlet tubes are gathered as for one proposal, those of two bends first; then one is chosen for each so that all go together, with as few bends in all as was
 * found (`put-together.ts`). It may miss a set that exists; what it gives was applied and traced anew, each primary in the header with all the others.
 */
export function proposeHeader(header: Header, options: HeaderProposeOptions = {}): HeaderProposalOutcome {
  return searchThrough(new HeaderProposalSearch(header, options));
}

/** The same search in slices; until it is through there is no header to show. */
export class HeaderProposalSearch extends SearchInSlices<HeaderProposalOutcome> {
  constructor(header: Header, options: HeaderProposeOptions = {}) {
    super(searchHeader(header, options));
  }

  protected untilNow(): HeaderProposalOutcome {
    return { kind: 'none', reason: { kind: 'notThrough' } };
  }
}

function* searchHeader(header: Header, options: HeaderProposeOptions): Generator<void, HeaderProposalOutcome> {
  if (header.state === 'finished') return { kind: 'none', reason: { kind: 'headerFinished' } };
  const problem = readHeaderProblem(header, options);
  const [refused] = problem.refused;
  if (refused !== undefined) return { kind: 'none', reason: { kind: 'onePrimary', ...refused } };
  const lengths = lengthsToTry(problem);
  const [first] = problem.placings.flat();
  if (first === undefined) return { kind: 'none', reason: { kind: 'noneToDo' } };
  let missingId: string | null = lengths.length === 0 ? first.primaryId : null;
  let best: HeaderProposal | null = null;
  for (const lengthMm of lengths) {
    // Two bends a primary: hardly any header takes fewer.
    if (best !== null && best.bends <= 2 * problem.placings.length) break;
    const mostBends: number = best === null ? MOST_BENDS * problem.placings.length : best.bends - 1;
    const found = yield* searchLength(problem, options, lengthMm, mostBends);
    if (found.kind === 'missing') missingId = found.primaryId;
    if (found.kind === 'found' && (best === null || found.proposal.bends < best.bends)) best = found.proposal;
  }
  if (best !== null) return { kind: 'found', proposal: best, isExhausted: true };
  if (missingId !== null) {
    const mostBends = Math.min(MOST_BENDS, options.mostBends ?? MOST_BENDS);
    const reason = { kind: 'outOfReach', mostBends, isLengthWanted: lengths.length > 0 } as const;
    return { kind: 'none', reason: { kind: 'onePrimary', primaryId: missingId, reason } };
  }
  return { kind: 'none', reason: { kind: 'together' } };
}

/** So much is kept between exact tubes beyond the gap wanted, for rounding moves them a little. */
const ROUNDING_MM = 0.7;
/** Sets that are rounded and proven before more tubes are gathered. */
const MOST_TRIALS = 40;

function* searchLength(
  problem: HeaderProposeProblem,
  options: HeaderProposeOptions,
  lengthMm: number,
  mostBends: number,
): Generator<void, LengthOutcome> {
  let missing: LengthOutcome = { kind: 'none' };
  const [first] = problem.placings.flat();
  const gapMm = first?.at(lengthMm)?.gapKeptMm ?? null;
  const together = new Together(gapMm === null ? null : gapMm + ROUNDING_MM);
  let count = 0;
  const numbers = () => {
    count += 1;
    return count;
  };
  for (const size of SIZES) {
    const pools = yield* poolsOf(problem, lengthMm, size, numbers);
    const primaryId = problem.placings[pools.findIndex(({ length }) => length === 0)]?.[0]?.primaryId;
    missing = primaryId === undefined ? { kind: 'none' } : { kind: 'missing', primaryId };
    for (let trial = 0; trial < MOST_TRIALS; trial += 1) {
      const choices = yield* together.fewestBends(pools, mostBends);
      if (choices === null) break;
      const proposal = yield* headerProposal(problem, options, choices, lengthMm);
      if (proposal.kind === 'found') return proposal;
      if (proposal.kind === 'tooNear') together.keepApart(proposal.one, proposal.other);
      else together.leaveOut(proposal.at);
    }
  }
  return missing;
}

type LengthOutcome =
  | { readonly kind: 'found'; readonly proposal: HeaderProposal }
  /** This one has no tube even by itself. */
  | { readonly kind: 'missing'; readonly primaryId: string }
  | { readonly kind: 'none' };

/** By primary, those with the fewest bends first. */
function* poolsOf(
  { placings }: HeaderProposeProblem,
  lengthMm: number,
  size: PoolSize,
  numbers: () => number,
): Generator<void, readonly (readonly Choice[])[]> {
  const pools: (readonly Choice[])[] = [];
  for (const some of placings) {
    const pool: Choice[] = [];
    for (const { inletId, collectorId, at } of some) {
      const problem = at(lengthMm);
      if (problem === null) continue;
      for (const tube of yield* poolOf(problem, collectorId, size, numbers)) pool.push({ tube, inletId });
    }
    pools.push(pool.sort((a, b) => a.tube.bends - b.tube.bends));
  }
  return pools;
}

type Trial =
  /** Rounded, these two do not keep the gap. */
  | { readonly kind: 'tooNear'; readonly one: Choice; readonly other: Choice }
  | { readonly kind: 'found'; readonly proposal: HeaderProposal }
  /** This one does not round, or does not stand up beside the others. */
  | { readonly kind: 'failed'; readonly at: Choice };

/** Rounds the choices and makes edits of them, each proven in the header with all the others. */
function* headerProposal(
  { header, bare }: HeaderProposeProblem,
  options: HeaderProposeOptions,
  choices: readonly Choice[],
  lengthMm: number,
): Generator<void, Trial> {
  const newId = freshIds({ header, options });
  const inletIds = new Map(choices.map(({ tube, inletId }) => [tube.problem.primary.id, inletId]));
  const placed = bare.primaries.map((one) => ({ ...one, inletId: inletIds.get(one.id) ?? one.inletId }));
  const candidates = new Map<string, Candidate>();
  const made = new Map<string, readonly Piece[]>();
  for (const choice of choices) {
    const { problem, shape } = choice.tube;
    const candidate = new ProposeSearch(problem, () => NO_KEEPER).rounded(shape);
    yield;
    if (candidate === null) return { kind: 'failed', at: choice };
    candidates.set(problem.primary.id, candidate);
    made.set(problem.primary.id, piecesOf(problem, candidate.shape, newId));
  }
  const near = yield* tooNear({ bare, placed, made }, choices);
  if (near !== null) return near;
  const proposals: ProposedPrimary[] = [];
  for (const choice of choices) {
    const { problem } = choice.tube;
    const primary = placed.find(({ id }) => id === problem.primary.id) ?? problem.primary;
    const primaries = placed.map((one) =>
      one === primary ? one : { ...one, pieces: [...one.pieces, ...(made.get(one.id) ?? [])] },
    );
    const beside = { ...problem, header: { ...bare, primaries }, primary, options: { ...options, newId } };
    const candidate = candidates.get(primary.id) as Candidate;
    const proposal = buildProposal(beside, candidate, new Surroundings(beside));
    yield;
    if (proposal === null) return { kind: 'failed', at: choice };
    proposals.push(proposal);
  }
  const whole = oneStepOf(header, { proposals, inletIds, lengthMm });
  return whole === null ? { kind: 'failed', at: choices[0] as Choice } : { kind: 'found', proposal: whole };
}

interface Made {
  readonly bare: Header;
  readonly placed: readonly Primary[];
  readonly made: ReadonlyMap<string, readonly Piece[]>;
}

/** Two of the choices that come too near to each other once they are rounded; null where none do. */
function* tooNear({ bare, placed, made }: Made, choices: readonly Choice[]): Generator<void, Trial | null> {
  const gapKeptMm = choices[0]?.tube.problem.gapKeptMm ?? null;
  if (gapKeptMm === null) return null;
  const primaries = placed.map((one) => ({ ...one, pieces: [...one.pieces, ...(made.get(one.id) ?? [])] }));
  // The gap that is kept may be another than the header's own.
  const settings = { ...bare.settings, wantedGap: millimetres(gapKeptMm) };
  const { tight } = headerClearances({ ...bare, settings, primaries });
  yield;
  const choiceOf = (id: string) => choices.find(({ tube }) => tube.problem.primary.id === id);
  for (const gap of tight) {
    if (gap.kind !== 'pair') continue;
    const [one, other] = [choiceOf(gap.primaryIdA), choiceOf(gap.primaryIdB)];
    if (one !== undefined && other !== undefined) return { kind: 'tooNear', one, other };
  }
  return null;
}

const NO_KEEPER: Keeper = { count: 0, take: () => undefined };

function oneStepOf(
  header: Header,
  { proposals, inletIds, lengthMm }: Pick<HeaderProposal, 'proposals' | 'inletIds' | 'lengthMm'>,
): HeaderProposal | null {
  const steps = header.primaries.flatMap((primary): readonly Edit[] => {
    const inletId = inletIds.get(primary.id) ?? primary.inletId;
    return inletId === primary.inletId ? [] : [assignInletEdit(primary, inletId)];
  });
  for (const { primaryId, keptPieces, pieces } of proposals) {
    const primary = header.primaries.find(({ id }) => id === primaryId);
    const rest = primary === undefined ? null : replaceRestEdit(primary, keptPieces, pieces);
    if (rest !== null) steps.push(rest);
  }
  const edit = joinedStep('proposal for the whole header', steps);
  if (edit === null || !applyEdit(header, edit).ok) return null;
  const lengths = proposals.map((proposal) => proposal.lengthMm);
  return {
    edit,
    proposals,
    inletIds,
    lengthMm,
    bends: proposals.reduce((sum, { bends }) => sum + bends, 0),
    spreadMm: Math.max(...lengths) - Math.min(...lengths),
  };
}
