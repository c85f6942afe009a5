/** A search that can be left and taken up again, for whoever has to listen in between. */

/**
 * `look` a while, do something else, `look` on. At any time `soFar` gives what was found until then; a search that is not
 * wanted any more is simply not looked on with.
 */
export abstract class SearchInSlices<Outcome> {
  readonly #steps: Generator<void, Outcome>;
  /** What is done last where the search is left; null: it was not left since it last looked on. */
  #lastSteps: Generator<void, void> | null = null;
  #outcome: Outcome | null = null;

  /** The whole search; it pauses (by yielding) every millisecond or so, and never works on for ten without a pause. */
  constructor(steps: Generator<void, Outcome>) {
    this.#steps = steps;
  }

  /** Looks on until it is through or `isTimeUp` says yes, which is asked at every pause. True: it is through. */
  look(isTimeUp: () => boolean): boolean {
    this.#lastSteps = null;
    while (this.#outcome === null) {
      const { done, value } = this.#steps.next();
      if (done === true) this.#outcome = value;
      else if (isTimeUp()) return false;
    }
    return true;
  }

  /**
   * For a search that is left before it is through: works out what `soFar` is to give, in slices like the search itself. True: it is ready, and
   * `soFar` has it at once. It may be looked on with afterwards, or in between.
   */
  windUp(isTimeUp: () => boolean): boolean {
    if (this.#outcome !== null) return true;
    this.#lastSteps ??= this.lastSteps();
    for (;;) {
      if (this.#lastSteps.next().done === true) return true;
      if (isTimeUp()) return false;
    }
  }

  /** Rises whenever `soFar` has something new that is worth showing before the search is through. */
  get news(): number {
    return 0;
  }

  /** The outcome once it is through; before that what was found until now, which is worked out on the spot where it was not wound up. */
  soFar(): Outcome {
    return this.#outcome ?? this.untilNow();
  }

  protected abstract untilNow(): Outcome;

  /** What `untilNow` would have to work out, with pauses; nothing unless a search says so. */
  protected *lastSteps(): Generator<void, void> {
    // Most searches have at hand what they give.
  }
}

/** All of it at once. */
export function searchThrough<Outcome>(search: SearchInSlices<Outcome>): Outcome {
  search.look(() => false);
  return search.soFar();
}

/** A part of a search, all of it at once. */
export function runThrough<Value>(steps: Generator<void, Value>): Value {
  for (;;) {
    const { done, value } = steps.next();
    if (done === true) return value;
  }
}
