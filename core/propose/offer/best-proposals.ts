/** The best candidates so far, one for each idea. */

import { type Candidate, compareCandidates, ideaOf } from './candidate.ts';

export class BestProposals {
  private readonly most: number;
  /** The gap that a candidate leaves, and null where it leaves too little. */
  private readonly gapOf: (candidate: Candidate) => number | null;
  private readonly kept = new Map<string, Candidate>();

  constructor(most: number, gapOf: (candidate: Candidate) => number | null) {
    this.most = most;
    this.gapOf = gapOf;
  }

  /** Best first. */
  get found(): readonly Candidate[] {
    return [...this.kept.values()].sort(compareCandidates);
  }

  get count(): number {
    return this.kept.size;
  }

  /** Takes the candidate in if it is better than its idea's best so far, or than the worst of all, and keeps its gap. */
  take(candidate: Candidate): void {
    const idea = ideaOf(candidate);
    const same = this.kept.get(idea);
    const rival = same ?? (this.kept.size < this.most ? null : this.worst());
    // With all the room in the world it would be: the gap takes longest to find.
    if (rival !== null && compareCandidates(candidate, rival) >= 0) return;
    const gapMm = this.gapOf(candidate);
    if (gapMm === null) return;
    const judged = { ...candidate, gapMm };
    if (rival !== null && compareCandidates(judged, rival) >= 0) return;
    if (rival !== null) this.kept.delete(ideaOf(rival));
    this.kept.set(idea, judged);
  }

  private worst(): Candidate | null {
    return this.found.at(-1) ?? null;
  }
}
