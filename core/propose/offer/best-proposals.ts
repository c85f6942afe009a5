/** The best candidates so far, one for each idea. */

import { type Candidate, compareCandidates, ideaOf } from './candidate.ts';

export class BestProposals {
  private readonly most: number;
  /** The gap that a candidate leaves, and null where it leaves too little. */
  private readonly gapOf: (candidate: Candidate) => number | null;
  private readonly kept = new Map<string, Candidate>();
  /** The best of those on the coarsest grid. */
  private coarse: Candidate | null = null;

  constructor(most: number, gapOf: (candidate: Candidate) => number | null) {
    this.most = most;
    this.gapOf = gapOf;
  }

  /** Best first. One is on the coarsest grid where any was: it takes the last place if it would have none by its rank. */
  get found(): readonly Candidate[] {
    const ranked = [...this.kept.values()].sort(compareCandidates);
    if (this.coarse === null || ranked.some(({ isCoarse }) => isCoarse)) return ranked;
    return [...ranked.slice(0, Math.max(1, this.most - 1)), this.coarse].slice(0, this.most).sort(compareCandidates);
  }

  get count(): number {
    return this.kept.size;
  }

  get hasCoarse(): boolean {
    return this.coarse !== null;
  }

  /** Takes the candidate in if it is better than its idea's best so far, or than the worst of all, and keeps its gap. */
  take(candidate: Candidate): void {
    const idea = ideaOf(candidate);
    const same = this.kept.get(idea);
    const rival = same ?? (this.kept.size < this.most ? null : this.worst());
    const isAhead = (one: Candidate, of: Candidate | null) => of === null || compareCandidates(one, of) < 0;
    const isCoarsest = (one: Candidate) => one.isCoarse && isAhead(one, this.coarse);
    // With all the room in the world it would be: the gap takes longest to find.
    if (!isAhead(candidate, rival) && !isCoarsest(candidate)) return;
    const gapMm = this.gapOf(candidate);
    if (gapMm === null) return;
    const judged = { ...candidate, gapMm };
    if (isCoarsest(judged)) this.coarse = judged;
    if (!isAhead(judged, rival)) return;
    if (rival !== null) this.kept.delete(ideaOf(rival));
    this.kept.set(idea, judged);
  }

  private worst(): Candidate | null {
    return [...this.kept.values()].sort(compareCandidates).at(-1) ?? null;
  }
}
