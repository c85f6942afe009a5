/** What can go wrong between a change and its safe place on disk, as data. */

/** Why the disk or the database did not take or give what was asked. */
export type StorageFault =
  | 'diskFull'
  | 'readOnly'
  | 'noPermission'
  | 'ioError'
  | 'corrupt'
  | 'notOurs'
  | 'newerVersion'
  | 'busy'
  | 'missing'
  /** The data folder's name has more letters than a database or a backup in it could be reached by. */
  | 'pathTooLong';

export type StorageProblem =
  /** The database could not be opened or written. `file` is its path, `detail` the engine's own words. */
  | { readonly kind: 'storage'; readonly fault: StorageFault; readonly file: string; readonly detail: string }
  /** The header was changed by another window or process since the revision that the change was made against. */
  | { readonly kind: 'changedElsewhere'; readonly expected: number; readonly found: number }
  | { readonly kind: 'notFound'; readonly what: 'header' | 'stockItem' | 'backup' | 'picture'; readonly id: string }
  /** Steps of one header are damaged on disk; it is there as far as it is sound, and all others are as they were. */
  | { readonly kind: 'damagedHeader'; readonly headerId: string; readonly detail: string }
  /** A finished header is not what was finished: something of it was altered on disk since. */
  | { readonly kind: 'alteredHeader'; readonly headerId: string; readonly name: string; readonly detail: string }
  | { readonly kind: 'finished'; readonly name: string }
  | { readonly kind: 'nothingToUndo'; readonly action: 'undo' | 'redo' }
  /** The request did not have the shape that the contract asks. */
  | { readonly kind: 'invalidRequest'; readonly call: string; readonly detail: string }
  /** Long work that is asked for is not under way: the program was started again, or it was stopped. */
  | { readonly kind: 'workGone' }
  /**
   * The page does not know the secret of the program that now serves it: another tab, another browser, or an address of
   * an earlier start.
   */
  | { readonly kind: 'pageUnknown' }
  /** A defect of the program itself; `reference` finds it in the log. */
  | { readonly kind: 'internal'; readonly reference: string };
