/** Judges a candidate as it comes: whether it stands up when it is applied, and whether it comes too near to anything. */

import { mmOf } from '../../units/length.ts';
import type { Move, MoveChange } from '../move.ts';
import type { MoveProblem } from '../problem/move-problem.ts';
import type { Candidate } from '../ranking/candidate.ts';
import { buildMove } from './build-move.ts';
import { freshIds } from './fresh-ids.ts';
import { kickSides } from './kick-sides.ts';
import { type Gaps, gapsInSteps, leastOf, type Neighbours, neighboursOf, tightenedTo } from './neighbours.ts';

/** A candidate that stands up, as far as it was looked at. */
export interface Judged {
  readonly candidate: Candidate;
  /** Null: not built yet. */
  readonly move: Move | null;
}

export interface Offered extends Judged {
  readonly move: Move;
}

export class Judge {
  /** The largest gap left by a move that was too tight; null when none was. */
  tightestBestMm: number | null = null;
  private readonly problem: MoveProblem;
  private neighbours: Neighbours | null = null;
  /** Null: not looked at yet. */
  private before: { readonly gaps: Gaps | null } | null = null;
  /** What was worked out before, so that whoever looks in between does not make the search do it again. */
  private readonly known = new WeakMap<Candidate, { readonly offered: Offered | null }>();

  constructor(problem: MoveProblem) {
    this.problem = problem;
  }

  /** A gap is to be kept, so that judging takes long. */
  get keepsGap(): boolean {
    return (this.problem.options.clearanceKeptMm ?? null) !== null;
  }

  /**
   * Null when a gap is to be kept and the move does not keep it. Where none is, whatever closes and lands in the band may come in; the
   * proof is for those that are offered, since it takes longer than finding them.
   */
  *judge(candidate: Candidate): Generator<void, Judged | null> {
    return this.keepsGap ? yield* this.clearest(candidate) : { candidate, move: null };
  }

  /** The move with the gaps that it leaves; a kick goes to the side with most room. Null: none of its sides keeps the gap. Pauses often. */
  *clearest(candidate: Candidate): Generator<void, Offered | null> {
    const known = this.known.get(candidate);
    if (known !== undefined) return known.offered;
    const offered = yield* this.clearestOf(candidate);
    this.known.set(candidate, { offered });
    // Asked for again it is asked for by the side that it goes to.
    if (offered !== null) this.known.set(offered.candidate, { offered });
    return offered;
  }

  private *clearestOf(candidate: Candidate): Generator<void, Offered | null> {
    const before = yield* this.gapsBefore();
    const neighbours = this.surroundings();
    const keptMm = this.problem.options.clearanceKeptMm ?? null;
    let best: Offered | null = null;
    for (const changes of sidesOf(candidate.changes)) {
      const sided = { ...candidate, changes };
      const built = buildMove(this.problem, sided, freshIds(this.problem));
      if (built === null) continue;
      yield;
      const after = yield* gapsInSteps(neighbours, built.proof.primary);
      const tightMm = keptMm === null ? null : tightenedTo(before, after, keptMm);
      if (tightMm !== null) {
        this.tightestBestMm = Math.max(this.tightestBestMm ?? Number.NEGATIVE_INFINITY, tightMm);
        continue;
      }
      const gaps = { clearanceBeforeMm: leastOf(before), clearanceAfterMm: leastOf(after) };
      const judged = { candidate: this.withTightness(sided, gaps.clearanceAfterMm), move: { ...built.move, ...gaps } };
      if (best === null || roomOf(judged) > roomOf(best)) best = judged;
    }
    return best;
  }

  private withTightness(candidate: Candidate, afterMm: number | null): Candidate {
    const wantedMm = mmOf(this.problem.header.settings.wantedGap);
    const tightMm = Math.max(0, wantedMm - (afterMm ?? Number.POSITIVE_INFINITY));
    return { ...candidate, cost: { ...candidate.cost, tightMm } };
  }

  private surroundings(): Neighbours {
    if (this.neighbours === null) {
      const { header, primary, options } = this.problem;
      const wantedMm = mmOf(header.settings.wantedGap);
      this.neighbours = neighboursOf(header, primary.id, Math.max(wantedMm, options.clearanceKeptMm ?? wantedMm));
    }
    return this.neighbours;
  }

  /** Looks at what is there now, ahead of the first candidate. */
  *gapsBefore(): Generator<void, Gaps | null> {
    if (this.before === null) {
      const neighbours = this.surroundings();
      yield;
      this.before = { gaps: yield* gapsInSteps(neighbours, this.problem.primary) };
    }
    return this.before.gaps;
  }
}

function roomOf({ move }: Offered): number {
  return move.clearanceAfterMm ?? Number.POSITIVE_INFINITY;
}

function sidesOf(changes: readonly MoveChange[]): readonly (readonly MoveChange[])[] {
  const [only] = changes;
  return only?.kind === 'kick' ? kickSides(only).map((kick) => [kick]) : [changes];
}
