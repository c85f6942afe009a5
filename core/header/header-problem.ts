/** Why a header, an edit or a parts list was refused, as data. */

/** Steps from the top of the document to the value at fault, as in `['primaries', 2, 'pieces', 5, 'angleDeg']`. */
export type ProblemPath = readonly (string | number)[];

/** What is wrong with a line of quick entry. */
export type EntryFault =
  | 'empty'
  | 'tooLong'
  | 'tooManyPieces'
  | 'noAngle'
  | 'angleOutOfRange'
  | 'clockingOutOfRange'
  | 'noPieCount'
  | 'pieCountOutOfRange'
  | 'tooFewPies'
  | 'noClr'
  | 'clrNotAboveZero'
  | 'nothingToRepeat'
  | 'noStraight'
  | 'severalPieces'
  | 'leftover';

export type HeaderProblem =
  /** The text is not a file of ours at all, or too large or deep to look into. */
  | {
      readonly kind: 'unreadableFile';
      readonly reason:
        | 'empty'
        | 'tooLarge'
        /** Could not be read again if it were written. */
        | 'tooLargeToWrite'
        | 'tooDeep'
        | 'tooSlow'
        | 'notJson'
        | 'notUtf8'
        | 'notAHeader'
        | 'duplicateKey'
        /** A line of a file of finished headers that is something else. */
        | 'notFinished'
        /** It does not match the checksum that was written with it. */
        | 'altered'
        | 'notCsv';
      readonly path: ProblemPath;
      /** The limit, offset or key in question, for the sentence. */
      readonly detail: string;
    }
  /** A list of parts lacks a column without which no row can be read. */
  | { readonly kind: 'missingColumn'; readonly path: ProblemPath; readonly column: string }
  /** A line typed into the entry line could not be read as pieces. */
  | {
      readonly kind: 'unreadableEntry';
      readonly path: ProblemPath;
      readonly reason: EntryFault;
      /** The part of the line at fault, for the sentence. */
      readonly part: string;
    }
  | { readonly kind: 'newerFormat'; readonly path: ProblemPath; readonly found: number; readonly supported: number }
  /** A value is missing, of the wrong kind or out of range. */
  | { readonly kind: 'invalidValue'; readonly path: ProblemPath; readonly expected: string; readonly found: string }
  | { readonly kind: 'unknownField'; readonly path: ProblemPath }
  | { readonly kind: 'duplicateId'; readonly path: ProblemPath; readonly id: string }
  /** Something is named that is not in the header. */
  | { readonly kind: 'unknownId'; readonly path: ProblemPath; readonly id: string; readonly what: string }
  /** Removing this would leave something else pointing at nothing. */
  | { readonly kind: 'stillUsed'; readonly path: ProblemPath; readonly id: string; readonly by: string }
  | { readonly kind: 'placeOutOfList'; readonly path: ProblemPath; readonly at: number; readonly length: number }
  | { readonly kind: 'tooMany'; readonly path: ProblemPath; readonly limit: number }
  /** Stands last in a list of problems that was cut short. */
  | { readonly kind: 'moreProblems'; readonly path: ProblemPath; readonly count: number }
  | { readonly kind: 'headerFinished'; readonly path: ProblemPath }
  | { readonly kind: 'headerNotFinished'; readonly path: ProblemPath };
