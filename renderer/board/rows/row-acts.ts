/** What can be done with a primary from its row. */

export interface RowActs {
  /** Leaves the name as it is when the new one is refused; the reason is shown. */
  readonly rename: (primaryId: string, name: string) => void;
  /** So many places further in the header's order. */
  readonly move: (primaryId: string, by: number) => void;
  readonly duplicate: (primaryId: string) => void;
  readonly remove: (primaryId: string) => void;
  readonly add: () => void;
  /** Opens where the other bank is made. */
  readonly mirror: (primaryId: string) => void;
}
