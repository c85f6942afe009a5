/** What a search for the best filling of straight stock goes by. */

/** A size as a knapsack sees it: what one takes of the room, what one is worth, and how many there are. */
export interface Item {
  readonly size: number;
  readonly takesMm: number;
  readonly worth: number;
  readonly count: number;
}

export interface Worth {
  readonly straights: readonly number[];
  readonly worth: number;
}
