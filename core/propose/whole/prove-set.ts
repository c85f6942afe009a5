/** Rounds a set of tubes, one for each primary, and proves it: each applied and traced anew in the header with all the others. */

import { applyEdit } from '../../edits/apply-edit.ts';
import { assignInletEdit } from '../../edits/collector-edits.ts';
import { type Edit, joinedStep } from '../../edits/edit.ts';
import { setSettingsEdit } from '../../edits/header-edits.ts';
import { replaceRestEdit } from '../../edits/piece-edits.ts';
import type { Header, Piece, Primary } from '../../header/header.ts';
import { freshIds } from '../../moves/offer/fresh-ids.ts';
import { headerClearances } from '../../path/clearance/header-clearances.ts';
import { lengthIn, millimetres } from '../../units/length.ts';
import { unitOf } from '../../units/length-style.ts';
import { buildProposal } from '../offer/build-proposal.ts';
import type { Candidate } from '../offer/candidate.ts';
import { piecesOf } from '../offer/pieces-of.ts';
import { Surroundings } from '../offer/surroundings.ts';
import type { ProposedPrimary } from '../outcome.ts';
import { type Keeper, ProposeSearch } from '../search.ts';
import type { HeaderProposal, HeaderProposeOptions } from './header-outcome.ts';
import type { HeaderProposeProblem } from './header-problem.ts';
import type { Choice } from './put-together.ts';

export type Trial =
  /** Rounded, these two do not keep the gap. */
  | { readonly kind: 'tooNear'; readonly one: Choice; readonly other: Choice }
  | { readonly kind: 'found'; readonly proposal: HeaderProposal }
  /** This one does not round, or does not stand up beside the others. */
  | { readonly kind: 'failed'; readonly at: Choice };

/** Rounds the choices and makes edits of them, each proven in the header with all the others. */
export function* proveSet(
  { header, bare, setsTarget }: HeaderProposeProblem,
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
  const whole = oneStepOf(header, { proposals, inletIds, lengthMm }, setsTarget);
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

const NO_KEEPER: Keeper = { count: 0, hasCoarse: false, take: () => undefined };

function oneStepOf(
  header: Header,
  { proposals, inletIds, lengthMm }: Pick<HeaderProposal, 'proposals' | 'inletIds' | 'lengthMm'>,
  setsTarget: boolean,
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
  if (setsTarget) {
    const length = lengthIn(lengthMm, unitOf(header.settings.display));
    steps.push(setSettingsEdit({ target: { kind: 'typed', length } }));
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
