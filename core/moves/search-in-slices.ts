/** A search that can be left and taken up again, for whoever has to listen in between. */

/**
 * `look` a while, do something else, `look` on. At any time `soFar` gives what was found until then; a search that is not
 * wanted any more is simply not looked on with.
 */
export abstract class SearchInSlices<Outcome> {
  readonly #steps: Generator<void, Outcome>;
  #outcome: Outcome | null = null;

  /** The whole search; it pauses (by yielding) every millisecond or so, and never works on for ten without a pause. */
  constructor(steps: Generator<void, Outcome>) {
    this.#steps = steps;
  }

  /** Looks on until it is through or `isTimeUp` says yes, which is asked at every pause. True: it is through. */
  look(isTimeUp: () => boolean): boolean {
    while (this.#outcome === null) {
      const { done, value } = this.#steps.next();
      if (done === true) this.#outcome = value;
      else if (isTimeUp()) return false;
    }
    return true;
  }

  /** Rises whenever `soFar` has something new that is worth showing before the search is through. */
  get news(): number {
    return 0;
  }

  /** The outcome once it is through; before that what was found until now. */
  soFar(): Outcome {
    return this.#outcome ?? this.untilNow();
  }

  protected abstract untilNow(): Outcome;
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
