/** What a proposed primary must keep clear of, and how near it cannot help being. */

import type { Piece, Primary } from '../../header/header.ts';
import {
  type Gaps,
  gapsOf,
  leastOf,
  type Neighbours,
  neighboursOf,
  tightenedTo,
} from '../../moves/offer/neighbours.ts';
import { poseOfFrame } from '../../path/frame.ts';
import { addScaled } from '../../path/vector.ts';
import { millimetres, mmOf } from '../../units/length.ts';
import type { ProposeProblem } from '../problem/propose-problem.ts';
import type { Candidate } from './candidate.ts';
import { piecesOf, primaryWith } from './pieces-of.ts';

export class Surroundings {
  /** The largest gap left by a candidate that was too tight; null when none was. */
  tightestBestMm: number | null = null;
  /** Whether there is anything to keep clear of but the primary itself. */
  readonly hasOthers: boolean;
  /** Gaps of what must be there whatever is proposed: the pieces that are kept, or the least straight at the port, and the least straight at the inlet. */
  readonly unavoidable: Gaps;
  private readonly problem: ProposeProblem;
  private readonly neighbours: Neighbours;

  constructor(problem: ProposeProblem) {
    const { header, primary, gapKeptMm } = problem;
    const wantedMm = mmOf(header.settings.wantedGap);
    this.problem = problem;
    this.neighbours = neighboursOf(header, primary.id, Math.max(wantedMm, gapKeptMm ?? wantedMm));
    this.hasOthers = this.neighbours.others.length > 0 || header.obstacles.length > 0;
    this.unavoidable = lesserOf(this.gapsOf(stubAtStart(problem)), this.gapsOf(stubAtInlet(problem)));
  }

  gapsOf(primary: Primary): Gaps | null {
    return gapsOf(this.neighbours, primary);
  }

  /** The least gap that a candidate leaves, infinite where there is nothing near; null where it leaves less than is kept. */
  readonly gapLeft = (candidate: Candidate): number | null => {
    const { gapKeptMm } = this.problem;
    const gaps = this.gapsOf(
      primaryWith(
        this.problem,
        piecesOf(this.problem, candidate.shape, () => 'new'),
      ),
    );
    const tightMm = gapKeptMm === null ? null : tightenedTo(this.unavoidable, gaps, gapKeptMm);
    if (tightMm === null) return leastOf(gaps) ?? Number.POSITIVE_INFINITY;
    this.tightestBestMm = Math.max(this.tightestBestMm ?? Number.NEGATIVE_INFINITY, tightMm);
    return null;
  };
}

function straightPiece(lengthMm: number): Piece {
  return { kind: 'straight', id: 'stub', state: 'planned', locked: false, note: '', length: millimetres(lengthMm) };
}

function stubAtStart(problem: ProposeProblem): Primary {
  const { keptPieces, least } = problem;
  // What is kept may end in a straight that is long enough by itself.
  return primaryWith(problem, keptPieces > 0 && least.firstMm === 0 ? [] : [straightPiece(least.firstMm)]);
}

/** The last straight alone, from where it begins. */
function stubAtInlet({ primary, ends: { wanted }, least }: ProposeProblem): Primary {
  const start = { ...wanted, point: addScaled(wanted.point, wanted.tangent, -least.lastMm) };
  return { ...primary, port: poseOfFrame(start, 'mm'), pieces: [straightPiece(least.lastMm)] };
}

function lesserOf(one: Gaps | null, other: Gaps | null): Gaps {
  const lesser = new Map(one ?? []);
  for (const [name, gapMm] of other ?? []) lesser.set(name, Math.min(gapMm, lesser.get(name) ?? gapMm));
  return lesser;
}
